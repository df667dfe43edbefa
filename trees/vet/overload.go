package vet

import (
	"fmt"

	"faultwalk/trees"
	"faultwalk/trees/prove"
)

// overloaded reports OL that would decide nothing: it is one reading to the
// meter and several to the branches. Of several meters the one that ends
// lowest is named.
func (v *vetting) overloaded(p *trees.Plant, b *trees.Bound, s situation, r *proof) {
	for _, o := range r.overloads {
		if samePlace(b, o.branches) {
			continue
		}
		top := b.Check.Quantity.Format(o.top)
		why := fmt.Sprintf("%s own parts of what lies above; end the bands below %s", together(b, known(o.branches)), top)
		if len(r.undecided) > 0 {
			why = "as far as the proof can tell " + together(b, known(o.branches)) + " may own it; begin the condition with a band that OL is not in"
		}
		v.found.add(b.Pos, Overload, fmt.Sprintf("OL on a meter that ends at %s (%s) decides nothing: %s%s", top, o.mode, why, s.where(b.Check)), "OL", p.ID)
		return
	}
}

// known leaves out the index that stands for no branch: a gap is reported by itself.
func known(branches []int) []int {
	if branches[0] == prove.Gap {
		return branches[1:]
	}
	return branches
}

// samePlace says whether all branches lead to the same place, so that a
// reading that lies in several of them decides all the same.
func samePlace(b *trees.Bound, branches []int) bool {
	if len(known(branches)) < len(branches) {
		return len(branches) < 3 // one branch and a gap
	}
	for _, i := range branches[1:] {
		if place(b.Branches[i].To) != place(b.Branches[branches[0]].To) {
			return false
		}
	}
	return true
}

// place names where a target leads.
func place(t trees.Target) string {
	switch {
	case t.Go != "":
		return "go " + t.Go
	case t.Refer != nil:
		return "refer " + t.Refer.ID
	case t.Pass != "":
		return "pass " + t.Pass
	}
	text := "cause"
	for _, c := range t.Causes {
		text += " " + c.ID
	}
	return text
}
