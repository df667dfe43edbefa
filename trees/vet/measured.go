package vet

import (
	"fmt"

	"faultwalk/trees"
	"faultwalk/trees/prove"
	"faultwalk/trees/strict"
)

// measured proves the branches of a step that takes readings, in every
// situation: exhaustive, and for a single reading exclusive.
func (v *vetting) measured(p *trees.Plant, b *trees.Bound) {
	branches, conditions := branchesOf(b)
	said := false // of several expectations one is enough to show what is wrong
	for _, s := range v.situations(p, b.Check, conditions) {
		r, err := v.prove(b.Check, s, branches, len(b.Check.Probes) > 1)
		if err != nil {
			v.failed(b.Pos, b.Check, err)
			return
		}
		if !said {
			v.wrong(p, b, s, r)
			v.overloaded(p, b, s, r)
		}
		said = len(b.Check.Uses) > 0 && (said || r.bad())
		v.live(b, r)
	}
}

// bad says whether something about a proof is reported where it was made.
func (r *proof) bad() bool {
	for _, f := range r.findings {
		if f.Kind != prove.Dead && f.Kind != prove.IdleElse {
			return true
		}
	}
	return len(r.errors) > 0 || len(r.overloads) > 0
}

func branchesOf(b *trees.Bound) (branches []prove.Branch, conditions []string) {
	for _, br := range b.Branches {
		branches = append(branches, prove.Branch{If: br.If.Value, Else: br.Else})
		conditions = append(conditions, br.If.Value)
	}
	return branches, conditions
}

// failed reports bands that cannot be worked out, or the end of the work.
func (v *vetting) failed(pos strict.Pos, c *trees.BoundCheck, err error) {
	switch {
	case err == errTooMuch && v.spent: // said already
	case err == errTooMuch:
		v.spent = true
		v.at(pos, TooMuch, err.Error())
	case c.Expect.Value == "" && v.namesExpected(c.Check.Scale):
		v.at(c.Check.Pos, Condition, "the edges of the scale "+quoted(c.Check.Scale)+" name what is expected, and the check "+quoted(c.Check.ID)+" expects nothing; give it \"expect\", or another scale")
	default:
		v.at(c.Check.Pos, Condition, "the readings of "+quoted(c.Check.ID)+" cannot be judged: "+err.Error())
	}
}

func (v *vetting) namesExpected(scale string) bool {
	sc := v.set.Scales[scale]
	if sc == nil {
		return false
	}
	for _, group := range sc.Modes {
		for _, b := range group.Bands {
			if expectName.MatchString(b.To.Value) {
				return true
			}
		}
	}
	return false
}

// wrong reports what a proof found, at the branch or the step it is about.
func (v *vetting) wrong(p *trees.Plant, b *trees.Bound, s situation, r *proof) {
	for _, e := range r.errors {
		if e.Branch < 0 || e.Branch >= len(b.Branches) {
			v.on(p, b.Pos, Condition, e.Message+s.where(b.Check))
			continue
		}
		v.on(p, b.Branches[e.Branch].If.At(e.Line, e.Column), Condition, e.Message+s.where(b.Check))
	}
	for _, u := range r.undecided {
		v.doubt(b, u)
	}
	for _, f := range r.findings {
		switch f.Kind {
		case prove.Uncovered:
			v.found.add(b.Pos, Gap, fmt.Sprintf("no branch owns %s; for example %s%s", f.Where, f.Example, s.where(b.Check)), f.Example, p.ID)
		case prove.Overlap:
			last := b.Branches[f.Branches[len(f.Branches)-1]]
			v.found.add(last.Pos, Overlap, fmt.Sprintf("%s own %s; for example %s%s", together(b, f.Branches), f.Where, f.Example, s.where(b.Check)), f.Example, p.ID)
		case prove.NoElse:
			v.noElse(b, r)
		}
	}
}

// doubt lists a condition that the proof cannot decide; an else owns what it
// may leave.
func (v *vetting) doubt(b *trees.Bound, u prove.Undecided) {
	if last := b.Branches[len(b.Branches)-1]; last.Else {
		br := b.Branches[u.Branch]
		v.doubts.add(br.If.At(u.Line, u.Column), Condition, quoted(br.If.Value)+": "+u.Reason, "", "")
	}
}

func (v *vetting) noElse(b *trees.Bound, r *proof) {
	if len(r.undecided) == 0 {
		v.at(b.Pos, NoElse, "several readings are judged by the first branch that is true; end the branches with \"else: true\"")
		return
	}
	u := r.undecided[0]
	br := b.Branches[u.Branch]
	v.at(br.If.At(u.Line, u.Column), NoElse, "the proof cannot decide this: "+u.Reason+"; write it otherwise, or end the branches with \"else: true\"")
}

// together names branches by their conditions.
func together(b *trees.Bound, branches []int) string {
	var words []string
	for _, i := range branches {
		words = append(words, branchName(b.Branches[i]))
	}
	if len(words) == 2 {
		return words[0] + " and " + words[1] + " both"
	}
	return joined(words) + " all"
}

func branchName(br *trees.BoundBranch) string {
	if br.Else {
		return "the else"
	}
	return quoted(br.If.Value)
}
