package walk

import (
	"math"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// takeReading records an answer or a value. A value that is no reading, or a
// mains value with a digit lost, is asked about first.
func takeReading(j *Job, a Answer) (taken, error) {
	aim := j.aim()
	if r := safety.Guard(j.context(), j.world, aim.thing(j)); r != nil {
		return taken{}, &Refused{r.Why}
	}
	if len(aim.check.Probes) == 0 {
		return j.takeLook(aim, a)
	}
	p := j.pending(aim)
	r, err := measurements.Parse(aim.check.Quantity, a.Typed)
	if err != nil {
		return j.refusedReading(aim, p, a.Typed, err)
	}
	if meant, ok := j.slip(aim.check, *p, r); ok {
		j.aside = j.slipStage(aim.check, r, meant, func(j *Job, r measurements.Reading) (taken, error) { return j.file(aim, p, r) })
		return taken{}, nil
	}
	return j.file(aim, p, r)
}

func (j *Job) takeLook(a *aim, x Answer) (taken, error) {
	if _, err := pick(j.lookAsk(a).Choices, x); err != nil {
		return taken{}, err
	}
	b := j.body(a)
	b.Answer = x.Choice
	return j.concluded(a, b), nil
}

// body starts the record of a reading.
func (j *Job) body(a *aim) *journal.Read {
	b := &journal.Read{Check: a.check.ID, Measured: a.check.Measured(), Purpose: a.purpose, Cautions: ids(j.checkCautions(a))}
	if a.step != nil {
		b.Step = a.step.Path
	}
	if r := j.mind.now[a.check.ID]; r != nil && len(r.values) == len(a.check.Probes) {
		b.Purpose = journal.ForAgain
	}
	return b
}

// file records one probe's value with those of the same check before it.
func (j *Job) file(a *aim, p *trees.BoundProbe, r measurements.Reading) (taken, error) {
	v, err := j.value(a.check, *p, r)
	if err != nil {
		return taken{}, err
	}
	b := j.body(a)
	if before := j.mind.now[a.check.ID]; before != nil && len(before.values) < len(a.check.Probes) {
		for _, q := range a.check.Probes {
			if v, read := before.values[q.As]; read {
				b.Values = append(b.Values, v)
			}
		}
	}
	b.Values = append(b.Values, v)
	b.Expected = j.expectedWords(a.check, *p)
	return j.concluded(a, b), nil
}

// value is what is stored of a reading, with the meter it was taken with.
func (j *Job) value(c *trees.BoundCheck, p trees.BoundProbe, r measurements.Reading) (journal.Value, error) {
	o, ok := j.using(c, p)
	if !ok {
		return journal.Value{}, &Refused{"no instrument of the kit reads " + c.ID}
	}
	if !r.Open && r.Value.IsPoint() && r.Value.Lo > o.Spec.Top() {
		return journal.Value{}, &Refused{o.Meter.Name + " shows at most " + c.Quantity.Format(o.Spec.Top()) + " in this mode; above that type OL"}
	}
	v := journal.Value{As: p.As, Mode: o.Mode, Meter: o.Meter.ID, Typed: r.Typed, Low: r.Value.Lo, High: r.Value.Hi, Open: r.Open, Moving: r.Moving}
	if r.Open {
		v.Low, v.High = o.Spec.Top(), math.Inf(1)
	}
	return v, nil
}

// concluded adds the verdict to a reading's record, and says it.
func (j *Job) concluded(a *aim, b *journal.Read) taken {
	b.Called = safety.Calling(a.check)
	t := taken{bodies: []any{b}}
	r := &reading{check: a.check, step: b.Step, purpose: b.Purpose, answer: b.Answer, values: map[string]journal.Value{}, body: b}
	for _, v := range b.Values {
		r.values[v.As] = v
	}
	if v, moving := j.moving(j.stepOf(r), r); moving {
		b.Verdict, b.Leads = v.meaning, leads(v.to)
		t.say = append(t.say, j.readWords(r)+": "+b.Verdict+".")
		return t
	}
	switch {
	case a.step != nil && a.step.Check == a.check:
		v := j.judge(a.step, r)
		b.Verdict, b.Leads = v.meaning, leads(v.to)
		t.reading = j.fallen(a.check, b)
		if !v.verdict {
			b.Verdict, b.Leads = j.openWords(a, r, v), ""
		}
	case a.purpose == journal.ForConfirm:
		b.Verdict = j.confirmWords(a.cause, r)
	case a.purpose == journal.ForRetest || a.purpose == journal.ForCleared:
		b.Verdict = j.retestWords(r)
	case a.purpose == journal.ForEarly:
		b.Verdict = "taken before it was asked for"
	default:
		b.Verdict = "noted; what is expected next follows from it"
	}
	t.say = append(t.say, j.readWords(r)+": "+b.Verdict+".")
	return t
}

// fallen is where the last value of a reading fell; nil for a look.
func (j *Job) fallen(c *trees.BoundCheck, b *journal.Read) *Fallen {
	if len(b.Values) == 0 {
		return nil
	}
	v, d := b.Values[len(b.Values)-1], c.Quantity.Domain()
	w := j.widen(c.Quantity, v)
	w.Lo, w.Hi = min(max(w.Lo, d.Lo), d.Hi), min(max(w.Hi, d.Lo), d.Hi)
	return &Fallen{Words: valueWords(c, v), Within: w}
}

// openWords says why a reading decides nothing yet.
func (j *Job) openWords(a *aim, r *reading, v verdict) string {
	if !v.whole {
		return "not decided by this alone"
	}
	return "too near an edge for this meter to decide"
}

// mains is what the country's mains should be; zero without a jurisdiction.
func (j *Job) mains() *trees.Jurisdiction {
	if jur := j.jurisdiction(); jur != nil {
		return jur
	}
	return &trees.Jurisdiction{}
}
