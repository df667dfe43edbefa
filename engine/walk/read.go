package walk

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// kit is the instruments in the present hands.
func (j *Job) kit() measurements.Kit {
	k := measurements.Kit{ProvingUnit: j.mind.hands.ProvingUnit}
	for _, id := range j.mind.hands.Kit {
		if in, ok := j.lib.Kit.Instrument(id); ok {
			k.Instruments = append(k.Instruments, in)
		}
	}
	return k
}

// option is one way to take a reading with the present kit.
type option struct {
	mode  string
	meter measurements.Instrument
	spec  measurements.ModeSpec
}

// options lists the ways to take a probe's reading: the mode the author likes
// best first, and of the instruments that have it the finest.
func (j *Job) options(c *trees.BoundCheck, p trees.BoundProbe) []option {
	var out []option
	for _, m := range p.Modes {
		first := len(out)
		for _, in := range j.kit().Instruments {
			if spec, ok := in.Spec(measurements.Mode(m), c.Quantity); ok {
				out = append(out, option{m, in, spec})
			}
		}
		slices.SortStableFunc(out[first:], func(a, b option) int {
			return cmp.Compare(a.spec.Ranges[0].Resolution, b.spec.Ranges[0].Resolution)
		})
	}
	return out
}

// using is the way chosen for a probe; the person may ask for the next one.
func (j *Job) using(c *trees.BoundCheck, p trees.BoundProbe) (option, bool) {
	all := j.options(c, p)
	if len(all) == 0 {
		return option{}, false
	}
	return all[j.meters[c.ID+"\n"+p.As]%len(all)], true
}

// modes are the modes a check will be read in; nil if the kit lacks one.
func (j *Job) modes(c *trees.BoundCheck) []string {
	var out []string
	for _, p := range c.Probes {
		o, ok := j.using(c, p)
		if !ok {
			return nil
		}
		out = append(out, o.mode)
	}
	return out
}

// pending is the reading to take now: the probe not read yet, or read and to
// be read again; nil for a look.
func (j *Job) pending(a *aim) *trees.BoundProbe {
	r := j.mind.now[a.check.ID]
	for i, p := range a.check.Probes {
		if r == nil || len(r.values) == len(a.check.Probes) {
			return &a.check.Probes[i]
		}
		if _, read := r.values[p.As]; !read {
			return &a.check.Probes[i]
		}
	}
	return nil
}

func askReading(j *Job) *Ask {
	a := j.aim()
	if a == nil || a.check == nil {
		return nil
	}
	if len(a.check.Probes) == 0 {
		return j.lookAsk(a)
	}
	return j.probeAsk(a, j.pending(a))
}

func (j *Job) lookAsk(a *aim) *Ask {
	c := a.check
	ask := &Ask{ID: "look", Kind: Choose, Check: c.ID, Title: c.Look, Cautions: j.checkCautions(a), Minutes: c.Check.Minutes}
	if j.mind.hands.Phone && c.Say != "" {
		ask.Body = append(ask.Body, "Say: “"+strings.TrimSpace(c.Say)+"”")
	}
	ask.Body = append(ask.Body, j.prose(c)...)
	for _, x := range c.Answers {
		ask.Choices = append(ask.Choices, Choice{ID: x.ID, Text: x.Say})
	}
	return ask
}

// prose is where and how; on the phone to somebody who may only look it stays
// with the words to say.
func (j *Job) prose(c *trees.BoundCheck) []string {
	var out []string
	if j.plainWords() && c.Say != "" {
		return out
	}
	if c.Where != "" {
		out = append(out, "Where: "+c.Where)
	}
	if c.How != "" {
		out = append(out, c.How)
	}
	return out
}

// plainWords says whether the hands are only ever talked to in plain words.
func (j *Job) plainWords() bool {
	k := j.mind.hands.Kind
	return j.mind.hands.Phone && (k == "householder" || k == "installer")
}

func (j *Job) checkCautions(a *aim) []Caution {
	return j.cautions(safety.Cautions(j.context(), a.thing(j))...)
}

func (j *Job) probeAsk(a *aim, p *trees.BoundProbe) *Ask {
	c := a.check
	o, _ := j.using(c, *p)
	r := &ReadingAsk{As: p.As, Quantity: string(c.Quantity), From: p.From.Name(), Mode: o.mode, Meter: o.meter.Name}
	if p.To != nil {
		r.To = p.To.Name()
	}
	r.Expected = j.expectedWords(c, *p)
	j.drawRanges(a, p, r)
	ask := &Ask{ID: "reading", Kind: Measure, Check: c.ID, Title: probeTitle(r), Cautions: j.checkCautions(a), Reading: r, Minutes: c.Check.Minutes}
	ask.Body = append(ask.Body, j.prose(c)...)
	ask.Body = append(ask.Body, "Meter: "+meterWords(o))
	if s := j.stateWords(c); s != "" {
		ask.Body = append(ask.Body, s)
	}
	if r.Expected != "" {
		ask.Body = append(ask.Body, "Expected when all is well: "+r.Expected)
	}
	return ask
}

func probeTitle(r *ReadingAsk) string {
	if r.To == "" {
		return "Read " + r.Quantity + " at " + r.From
	}
	return "Read " + r.Quantity + ": " + r.From + " to " + r.To
}

func meterWords(o option) string {
	w := o.meter.Name + ", " + o.mode
	switch measurements.Mode(o.mode) {
	case measurements.LowImpedance:
		return w + ". Touch it briefly; live to neutral only"
	case measurements.TwoPoleLoaded:
		return w + " (load button in). Live to neutral only"
	}
	return w
}

// stateWords says the state the plant must be in, with which demand, and what is off.
func (j *Job) stateWords(c *trees.BoundCheck) string {
	var parts []string
	for _, call := range j.mind.plant.Calls {
		if on, ok := c.Need.Calls[call.ID]; ok && on {
			parts = append(parts, call.Words+" called, and still shown after the reading")
		} else if ok {
			parts = append(parts, call.Words+" not called")
		}
	}
	for _, id := range c.Need.Unplugged {
		parts = append(parts, j.mind.plant.Words(id)+" unplugged")
	}
	if c.Need.Power == trees.Live && len(c.Need.Unplugged) == 0 {
		parts = append(parts, "the load left on")
	}
	if len(parts) == 0 {
		return ""
	}
	return "State: " + strings.Join(parts, "; ") + "."
}

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
	if meant, ok := j.slip(aim, r); ok {
		j.aside = j.slipStage(aim, p, r, meant)
		return taken{}, nil
	}
	return j.file(aim, p, r)
}

// refusedReading asks back where a doubled digit explains an impossible value.
func (j *Job) refusedReading(a *aim, p *trees.BoundProbe, typed string, err error) (taken, error) {
	var not *measurements.NotAReading
	if errors.As(err, &not) && not.Beyond != nil {
		if meant, ok := j.slip(a, *not.Beyond); ok {
			j.aside = j.slipStage(a, p, measurements.Reading{}, meant)
			return taken{}, nil
		}
	}
	return taken{}, &Refused{err.Error()}
}

func (j *Job) slip(a *aim, r measurements.Reading) (float64, bool) {
	if a.check.Check.Scale != "mains" || a.check.Need.Power != trees.Live {
		return 0, false
	}
	jur := j.mains()
	return measurements.MainsSlip(r, measurements.Interval{Lo: jur.Low, Hi: jur.High})
}

// slipStage asks whether a digit was lost; no is an answer too.
func (j *Job) slipStage(a *aim, p *trees.BoundProbe, typed measurements.Reading, meant float64) *stage {
	value := a.check.Quantity.Format(meant)
	ask := &Ask{ID: "slip", Kind: Choose, Title: "Did you mean " + value + "?", Choices: []Choice{{ID: "yes", Text: "yes, " + value}}}
	if typed.Typed != "" {
		ask.Choices = append(ask.Choices, Choice{ID: "no", Text: "no, it reads " + typed.Typed})
	} else {
		ask.Choices = append(ask.Choices, Choice{ID: "no", Text: "no, let me type it again"})
	}
	return &stage{"slip", func(*Job) *Ask { return ask }, func(j *Job, x Answer) (taken, error) {
		switch {
		case x.Choice == "yes":
			r, err := measurements.Parse(a.check.Quantity, value)
			if err != nil {
				return taken{}, &Refused{err.Error()}
			}
			r.Typed = value + " (typed " + typed.Typed + ")"
			return j.file(a, p, r)
		case x.Choice == "no" && typed.Typed != "":
			return j.file(a, p, typed)
		case x.Choice == "no":
			j.aside = nil
			return taken{}, nil
		}
		return taken{}, &Refused{"expected yes or no"}
	}}
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
	o, ok := j.using(a.check, *p)
	if !ok {
		return taken{}, &Refused{"no instrument in the kit reads this"}
	}
	if !r.Open && r.Value.IsPoint() && r.Value.Lo > o.spec.Top() {
		return taken{}, &Refused{o.meter.Name + " shows at most " + a.check.Quantity.Format(o.spec.Top()) + " in this mode; above that type OL"}
	}
	b := j.body(a)
	if before := j.mind.now[a.check.ID]; before != nil && len(before.values) < len(a.check.Probes) {
		for _, q := range a.check.Probes {
			if v, read := before.values[q.As]; read {
				b.Values = append(b.Values, v)
			}
		}
	}
	v := journal.Value{As: p.As, Mode: o.mode, Meter: o.meter.ID, Typed: r.Typed, Low: r.Value.Lo, High: r.Value.Hi, Open: r.Open, Moving: r.Moving}
	if r.Open {
		v.Low, v.High = o.spec.Top(), math.Inf(1)
	}
	b.Values = append(b.Values, v)
	b.Expected = j.expectedWords(a.check, *p)
	return j.concluded(a, b), nil
}

// concluded adds the verdict to a reading's record, and says it.
func (j *Job) concluded(a *aim, b *journal.Read) taken {
	t := taken{bodies: []any{b}}
	r := &reading{check: a.check, step: b.Step, purpose: b.Purpose, answer: b.Answer, values: map[string]journal.Value{}, body: b}
	for _, v := range b.Values {
		r.values[v.As] = v
	}
	switch {
	case a.step != nil && a.step.Check == a.check:
		v := j.judge(a.step, r)
		b.Verdict, b.Leads = v.meaning, leads(v.to)
		if len(a.check.Probes) > 0 {
			t.touches = append([]int{}, v.touches...)
		}
		if !v.verdict {
			b.Verdict, b.Leads = j.openWords(a, r, v), ""
		}
	case a.purpose == journal.ForConfirm:
		b.Verdict = j.confirmWords(a.cause, r)
	case a.purpose == journal.ForRetest || a.purpose == journal.ForCleared:
		b.Verdict = j.retestWords(r)
	default:
		b.Verdict = "noted; what is expected next follows from it"
	}
	t.say = append(t.say, j.readWords(r)+": "+b.Verdict+".")
	return t
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
