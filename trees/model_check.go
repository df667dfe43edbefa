package trees

import (
	"maps"
	"slices"

	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// modelCheck checks what one model says of itself: that each name is there
// once, that formulas name what is there, and that something moves every
// variable that is not fixed.
type modelCheck struct {
	*Model
	types    map[string]formula.Type // of values and variables
	holds    map[string]Holds        // of variables
	fixed    map[string]bool
	branches map[string]bool
	driver   map[string]string // what sets a variable: a rule, a slow rule, a trip
}

func (m *modelCheck) check() {
	m.types, m.fixed = map[string]formula.Type{}, map[string]bool{}
	m.holds = map[string]Holds{}
	m.branches, m.driver = map[string]bool{}, map[string]string{}
	m.names()
	for _, r := range m.Rules {
		m.drives(r.Set, "rule")
	}
	for _, r := range m.Slow {
		m.drives(r.Set, "slow rule")
	}
	for _, t := range m.Trips {
		m.drives(t.Set, "trip")
	}
	m.undriven()
	m.formulas()
	m.faults()
}

func (m *modelCheck) names() {
	for _, v := range m.Values {
		m.name(v.ID, formula.Numeric)
	}
	for _, v := range m.Variables {
		if v.Type() == formula.Wordy && v.First.Value != "" && !idWord.MatchString(v.First.Value) {
			v.First.Problem("found %q; expected a number, true, false or a plain word", clip(v.First.Value))
		}
		m.name(v.ID, v.Type())
		m.fixed[v.ID.Value], m.holds[v.ID.Value] = v.Fixed, v.Holds()
	}
	for _, b := range m.Branches {
		if m.branches[b.ID.Value] && b.ID.Value != "" {
			b.ID.Problem("the branch %q comes twice", b.ID.Value)
		}
		m.branches[b.ID.Value] = true
	}
}

func (m *modelCheck) name(id strict.Text, typ formula.Type) {
	if _, twice := m.types[id.Value]; twice && id.Value != "" {
		id.Problem("%q comes twice among the values and variables; each has one first value", id.Value)
	}
	m.types[id.Value] = typ
}

// drives notes what sets a variable. A trip may set what a rule sets too.
func (m *modelCheck) drives(set strict.Text, by string) {
	id := set.Value
	_, known := m.types[id]
	before, driven := m.driver[id]
	switch {
	case id == "":
	case !known:
		set.Problem("%v", formula.Unknown("a variable of this model", id, slices.Sorted(maps.Keys(m.types))))
	case m.fixed[id]:
		set.Problem("the variable %q is fixed, so that only a fault moves it, and a %s sets it; expected one or the other", id, by)
	case driven && by != "trip":
		set.Problem("the variable %q is set by a %s already; expected one for each", id, before)
	}
	m.driver[id] = by
}

func (m *modelCheck) undriven() {
	for _, v := range m.Variables {
		if _, driven := m.driver[v.ID.Value]; !driven && !v.Fixed && v.ID.Value != "" {
			v.ID.Problem("nothing moves the variable %q; expected a rule, a slow rule or a trip, or \"fixed: true\" where only faults do", v.ID.Value)
		}
	}
	for _, v := range m.Values {
		if by, driven := m.driver[v.ID.Value]; driven {
			v.ID.Problem("%q is a value, and a %s sets it; expected a variable", v.ID.Value, by)
		}
	}
}
