package vet

import (
	"strings"

	"faultwalk/trees"
	"faultwalk/trees/prove"
	"faultwalk/trees/strict"
)

// good looks at a check's healthy verdict.
func (v *vetting) good(p *trees.Plant, c *trees.BoundCheck) {
	if c.Good.Value != "" {
		v.condition(p, c, c.Good, "the healthy verdict of "+quoted(c.Check.ID))
	}
}

// condition looks at a condition on a check's readings or answers alone: it
// must hold for some and fail for others.
func (v *vetting) condition(p *trees.Plant, c *trees.BoundCheck, t strict.Text, what string) {
	f := v.fate(t.Pos, what, NeverHolds, what+" can never hold: "+quoted(t.Value), what+" always holds, so it proves nothing: "+quoted(t.Value))
	if len(c.Probes) == 0 {
		f.answers(c, t.Value)
		return
	}
	for _, s := range v.situations(p, c, []string{t.Value}) {
		r, err := v.prove(c, s, []prove.Branch{{If: t.Value}, {Else: true}}, true)
		if err != nil {
			v.failed(t.Pos, c, err)
			f.holds, f.fails = true, true
			return
		}
		for _, e := range r.errors {
			v.on(p, t.At(e.Line, e.Column), Condition, e.Message+s.where(c))
		}
		f.judged(r)
	}
}

// judged notes what a proof of a condition and its else says. One that cannot
// be decided or read counts as both.
func (f *fate) judged(r *proof) {
	if len(r.errors) > 0 || len(r.undecided) > 0 {
		f.holds, f.fails = true, true
		return
	}
	f.holds = f.holds || r.alive&1 != 0
	f.fails = f.fails || r.alive&2 != 0
}

// answers notes whether some answers of a look are meant and others are not.
func (f *fate) answers(c *trees.BoundCheck, condition string) {
	for _, a := range c.Answers {
		if trees.AnswerHolds(condition, a.ID) {
			f.holds = true
		} else {
			f.fails = true
		}
	}
}

// look proves the branches of a step that takes an answer: each answer has
// exactly one.
func (v *vetting) look(b *trees.Bound) {
	taken := map[string]bool{}
	for _, br := range b.Branches {
		if br.Else {
			v.elseOfLook(b, br, taken)
			return
		}
		for _, a := range br.Answers {
			if taken[a] {
				v.found.add(br.Pos, Overlap, "the answer "+quoted(a)+" has a branch already, or stands here twice; the first counts", a, "")
			}
			taken[a] = true
		}
	}
	for _, a := range b.Check.Answers {
		if !taken[a.ID] {
			v.found.add(b.Pos, Gap, "no branch takes the answer "+quoted(a.ID)+" ("+strings.TrimSpace(a.Say)+")", a.ID, "")
		}
	}
}

// elseOfLook notes whether an else is left any answer.
func (v *vetting) elseOfLook(b *trees.Bound, br *trees.BoundBranch, taken map[string]bool) {
	f := v.fate(br.Pos, "", IdleElse, "the else takes nothing: the branches before it take every answer", "")
	for _, a := range b.Check.Answers {
		f.holds = f.holds || !taken[a.ID]
	}
}
