package vet

import (
	"maps"
	"slices"
	"strings"

	"faultwalk/trees"
)

// signs compiles the signs that can be looked for on a plant.
func (v *vetting) signs(p *trees.Plant) {
	s := v.scope(p)
	for _, sign := range v.set.Signs {
		here := true
		for _, c := range sign.Calls {
			here = here && p.Call(c.Call.Value) != nil
			if !v.anyPlant(func(p *trees.Plant) bool { return p.Call(c.Call.Value) != nil }) {
				v.at(c.Call.Pos, Unbindable, "no plant has the call "+quoted(c.Call.Value))
			}
		}
		if here {
			s.check(sign.Shows, "a sign")
		}
	}
}

// simulated says whether the layer that is vetted takes part in the
// simulation. Trees from outside need not: their looks are then not rehearsed.
func (v *vetting) simulated() bool {
	if len(v.set.Layers) == 1 {
		return true
	}
	for file := range v.set.Layers[len(v.set.Layers)-1].Files {
		if strings.HasPrefix(file, "models/") || strings.HasPrefix(file, "signs/") {
			return true
		}
	}
	return false
}

// some says whether an answer of a look says when it is given.
func some(c *trees.Check) bool {
	return slices.ContainsFunc(c.Answers, func(a trees.Answer) bool { return a.When.Value != "" })
}

// answers reports the answers of looks that the simulation could not choose.
func (v *vetting) answers() {
	for _, id := range slices.Sorted(maps.Keys(v.set.Checks)) {
		c := v.set.Checks[id]
		if !v.simulated() && !some(c) {
			continue
		}
		for i, a := range c.Answers {
			if a.When.Value == "" && i < len(c.Answers)-1 {
				v.mine(a.Pos, Missing, "nothing says when the answer "+quoted(a.ID)+" of "+quoted(id)+" is given; expected \"when\" on every answer but the last")
			}
		}
	}
}

// whens compiles what says when the answers of a bound look are given.
func (v *vetting) whens(p *trees.Plant, c *trees.BoundCheck) {
	if len(v.set.Models) == 0 {
		return
	}
	s := v.scope(p)
	for _, a := range c.Answers {
		s.check(a.When, "when")
	}
}

// signsOfTrees reports a tree that starts from a sign of which nothing says
// when it shows.
func (v *vetting) signsOfTrees() {
	for _, id := range slices.Sorted(maps.Keys(v.set.Symptoms)) {
		if v.simulated() && v.set.Sign(id) == nil {
			v.mine(v.set.Symptoms[id].Pos, Missing, "nothing says when the sign "+quoted(id)+" shows; expected a sign of that id")
		}
	}
}
