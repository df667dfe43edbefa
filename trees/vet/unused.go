package vet

import (
	"maps"
	"slices"
	"strings"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// unreached reports trees that serve no plant, routines that nobody uses,
// steps that nothing leads to, and steps that no plant has.
func (v *vetting) unreached() {
	for _, id := range slices.Sorted(maps.Keys(v.set.Symptoms)) {
		s := v.set.Symptoms[id]
		if !v.used.symptoms[id] {
			v.mine(s.Pos, NeverHolds, "this tree serves no plant: "+quoted(s.Plants.Value)+" holds on none")
			continue
		}
		v.steps(s.Steps)
	}
	for _, id := range slices.Sorted(maps.Keys(v.set.Routines)) {
		r := v.set.Routines[id]
		if !v.anyVisited(r.Steps) {
			v.mine(r.Pos, Unreachable, "no step that is reached uses the routine "+quoted(id))
			continue
		}
		v.steps(r.Steps)
	}
}

func (v *vetting) anyVisited(steps []*trees.Step) bool {
	for _, st := range steps {
		if v.used.visited[st] {
			return true
		}
	}
	return false
}

func (v *vetting) steps(steps []*trees.Step) {
	for _, st := range steps {
		switch {
		case !v.used.visited[st]:
			v.mine(st.Pos, Unreachable, "nothing leads to the step "+quoted(st.ID)+" on any plant")
		case !v.used.held[st]:
			v.mine(st.If.Pos, NeverHolds, "the step "+quoted(st.ID)+" is on no plant: "+quoted(st.If.Value)+" holds on none")
		}
	}
}

// mine records a problem of something nothing uses, if it is written in the
// layer that is vetted.
func (v *vetting) mine(pos strict.Pos, kind Kind, message string) {
	if v.own[pos.File] {
		v.at(pos, kind, message)
	}
}

// unused reports what no tree on any plant uses.
func (v *vetting) unused() {
	scales := map[string]bool{}
	for _, id := range slices.Sorted(maps.Keys(v.set.Checks)) {
		c := v.set.Checks[id]
		scales[c.Scale] = true
		if !v.used.checks[id] {
			v.mine(c.Pos, Unused, "no tree uses the check "+quoted(id)+" on any plant")
		}
	}
	for _, id := range slices.Sorted(maps.Keys(v.set.Scales)) {
		if !scales[id] {
			v.mine(v.set.Scales[id].Pos, Unused, "no check uses the scale "+quoted(id))
		}
	}
	v.unusedCauses()
	v.unusedReferrals()
	for _, s := range v.set.Stops {
		if v.branches[fateKey{s.Pos, s.If.Value}] == nil {
			v.mine(s.Pos, Unused, "no check takes all the readings that the stop "+quoted(s.ID)+" names")
		}
	}
}

// unusedCauses reports causes that nothing ends at, and those whose evidence
// is on no plant where they are.
func (v *vetting) unusedCauses() {
	rivals := map[string]bool{}
	for _, use := range v.used.causes {
		for id := range use.rivals {
			rivals[id] = true
		}
	}
	for _, id := range slices.Sorted(maps.Keys(v.set.Causes)) {
		c, use := v.set.Causes[id], v.used.causes[id]
		switch {
		case use == nil && rivals[id]:
			v.mine(c.Pos, Unused, "no branch leads to the cause "+quoted(id)+"; it is only named as a rival")
		case use == nil:
			v.mine(c.Pos, Unused, "no branch leads to the cause "+quoted(id)+" on any plant")
		default:
			v.evidence(c, use)
		}
	}
}

// evidence reports what a cause names and never has where it is met.
func (v *vetting) evidence(c *trees.Cause, use *causeUse) {
	if c.Confirm != nil && !use.confirmed {
		v.mine(c.Confirm.Check.Pos, Unproved, "the confirming reading of "+quoted(c.ID)+" can be taken on no plant that has the cause")
	}
	if c.Confirm != nil && use.confirmed && c.Confirm.Rival.Value != "" && !use.contradicted {
		v.mine(c.Confirm.Rival.Pos, Unproved, "the rival "+quoted(c.Confirm.Rival.Value)+" is on no plant that has the cause "+quoted(c.ID))
	}
	if c.Retest.Value != "" && !use.retested {
		v.mine(c.Retest.Pos, Unproved, "the retest of "+quoted(c.ID)+" can be made on no plant that has the cause")
	}
	for _, r := range c.Rivals {
		name, _, _ := strings.Cut(r.Value, " ")
		if !use.rivals[name] {
			v.mine(r.Pos, Unproved, "the rival "+quoted(r.Value)+" is on no plant that has the cause "+quoted(c.ID))
		}
	}
}

func (v *vetting) unusedReferrals() {
	for _, s := range v.set.Stops {
		v.used.referrals[s.Refer] = true
	}
	for _, id := range programReferrals {
		v.used.referrals[id] = true
	}
	for _, id := range slices.Sorted(maps.Keys(v.set.Referrals)) {
		if !v.used.referrals[id] {
			v.mine(v.set.Referrals[id].Pos, Unused, "nothing leads to the referral "+quoted(id))
		}
	}
}
