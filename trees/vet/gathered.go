package vet

import (
	"slices"
	"strings"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// What looking at one thing of the simulation takes, in runs of a condition.
const (
	partWork   = 50
	changeWork = 20
	causeWork  = 5
)

// afford says whether there is work left, and takes it. The first time there is
// none that is reported.
func (v *vetting) afford(work int, pos strict.Pos) bool {
	if v.work > v.most {
		if !v.spent {
			v.spent = true
			v.at(pos, TooMuch, errTooMuch.Error())
		}
		return false
	}
	v.work += work
	return true
}

// gather finds once what formulas and faults are compared with.
func (v *vetting) gather() {
	for _, m := range v.set.Models {
		v.follows[m] = follows(m)
		for _, f := range m.Faults {
			v.give(f)
		}
	}
	for _, p := range v.plants {
		for id := range v.scope(p).links {
			v.links[id] = true
		}
		for _, f := range p.Faults {
			v.give(f)
		}
	}
}

// give notes the words that a fault gives to settings, and to variables that
// it names with their part.
func (v *vetting) give(f trees.ModelFault) {
	for _, c := range changesOf(f) {
		key := "setting " + c.Of
		if i := strings.LastIndexByte(c.Name, '.'); c.Thing == "" && i >= 0 {
			key = c.Name[i:]
		} else if c.Thing != "setting" {
			continue
		}
		if !slices.Contains(v.given[key], c.To) {
			v.given[key] = append(v.given[key], c.To)
		}
	}
}
