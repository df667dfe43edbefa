package sheet

import (
	"math"
	"slices"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/trees"
)

// read files a reading. One that only adds a probe to the reading before it
// takes that one's place: they are one check.
func (b *builder) read(e journal.Event, body *journal.Read) {
	b.cautions(e.N, body.Cautions)
	c := b.job.Check(body.Check)
	r := Reading{Mark: mark(e), Epoch: b.job.Epoch(), Step: body.Step, Check: body.Check, Words: body.Check, Purpose: body.Purpose,
		Answer: body.Answer, Answered: body.Answer, Expected: body.Expected, Verdict: body.Verdict, TakenBack: b.back(e.N)}
	if t := b.taken[e.N]; t != nil {
		r.TakenBackWhy = t.Body.(*journal.Retracted).Why
	}
	if c == nil {
		r.Doubt = "these trees have no such check"
	} else {
		r.Words, r.State, r.Quantity = walk.CheckWords(c), b.stateOf(c), string(c.Quantity)
		r.Answered = answerWords(c, body.Answer)
	}
	for _, v := range body.Values {
		r.Values = append(r.Values, b.value(c, v))
	}
	b.expected(&r)
	b.file(r)
}

// stateOf says in which state of the plant a check is made.
func (b *builder) stateOf(c *trees.BoundCheck) string {
	power := ""
	switch c.Need.Power {
	case trees.DeadWay:
		power = "isolated, proved dead"
	case trees.Live:
		power = "power on, cover off"
	}
	return joined("; ", power, b.job.StateWords(c))
}

func answerWords(c *trees.BoundCheck, id string) string {
	for _, a := range c.Answers {
		if a.ID == id {
			return a.Say
		}
	}
	return id
}

// value puts one probe's reading into words; c is nil for a check that is not
// in these trees.
func (b *builder) value(c *trees.BoundCheck, v journal.Value) Value {
	out := Value{As: v.As, Mode: v.Mode, Meter: v.Meter, Typed: v.Typed, Low: finite(v.Low), High: finite(v.High), Open: v.Open, Moving: v.Moving, Reads: v.Typed}
	if in, ok := b.lib.Kit.Instrument(v.Meter); ok {
		out.Meter = in.Name
	}
	if c == nil {
		return out
	}
	out.Reads, out.Unit = walk.ValueWords(c, v), c.Quantity.Unit()
	if len(c.Probes) > 1 {
		out.Name = walk.ProbeWords(v.As)
	}
	for _, p := range c.Probes {
		if p.As == v.As {
			out.From = p.From.Name()
			if p.To != nil {
				out.To = p.To.Name()
			}
		}
	}
	return out
}

func finite(v float64) *float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil
	}
	return &v
}

// expected gives what was expected to the probe it was shown for: the last one
// read. Those before keep what their own event said.
func (b *builder) expected(r *Reading) {
	if len(r.Values) == 0 {
		return
	}
	r.Values[len(r.Values)-1].Expected = r.Expected
	if len(r.Values) > 1 {
		r.Expected = ""
	}
	if before := b.lastOf(r); before != nil {
		for i := range before.Values {
			r.Values[i].Expected = before.Values[i].Expected
		}
	}
}

// lastOf finds the reading that r adds a probe to; nil if it begins anew.
func (b *builder) lastOf(r *Reading) *Reading {
	all := b.sheet.Readings
	for i := len(all) - 1; i >= 0; i-- {
		q := &all[i]
		if q.Check != r.Check || q.Epoch != r.Epoch || q.TakenBack != 0 {
			continue
		}
		if !extends(r, q) {
			return nil
		}
		return q
	}
	return nil
}

// extends says whether r repeats all values of q and has more.
func extends(r, q *Reading) bool {
	if len(q.Values) == 0 || len(q.Values) >= len(r.Values) {
		return false
	}
	for i, v := range q.Values {
		if w := r.Values[i]; w.As != v.As || w.Typed != v.Typed || w.Mode != v.Mode || w.Meter != v.Meter {
			return false
		}
	}
	return true
}

// file adds a reading, in place of the one it adds a probe to.
func (b *builder) file(r Reading) {
	if before := b.lastOf(&r); before != nil && r.TakenBack == 0 {
		if before.Purpose == journal.ForAgain {
			r.Purpose = journal.ForAgain
		}
		n := before.Event
		b.sheet.Readings = slices.DeleteFunc(b.sheet.Readings, func(q Reading) bool { return q.Event == n })
	}
	b.sheet.Readings = append(b.sheet.Readings, r)
}

// reads says what a reading came to in one line.
func (r Reading) reads() string {
	if len(r.Values) == 0 {
		return r.Answered
	}
	var parts []string
	for _, v := range r.Values {
		parts = append(parts, joined(" ", v.Name, v.Reads))
	}
	return strings.Join(parts, ", ")
}

// judged is the verdict, unless it only says what the reading was for.
func (r Reading) judged() string {
	if r.Verdict == purposeWords(r.Purpose) {
		return ""
	}
	return r.Verdict
}

// between says where a value was read, unless the reading's own words say it.
func (r Reading) between(v Value) string {
	w := joined(" to ", v.From, v.To)
	if w == r.Words {
		return ""
	}
	return w
}

// typedWords is what was typed, where the sheet writes it otherwise.
func (v Value) typedWords() string {
	typed, reads := bare(v.Typed), bare(v.Reads)
	if typed == "" || typed+bare(v.Unit) == reads || strings.HasPrefix(reads, typed) && (v.Open || typed == reads) {
		return ""
	}
	return "typed “" + v.Typed + "”"
}

func bare(s string) string { return strings.ReplaceAll(s, " ", "") }
