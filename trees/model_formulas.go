package trees

import (
	"fmt"
	"maps"
	"slices"

	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// formulas checks that each formula names what the model has and gives what is expected of it.
func (m *modelCheck) formulas() {
	for _, b := range m.Branches {
		for _, f := range []struct {
			text strict.Text
			what string
		}{{b.Ohms, "ohms"}, {b.Reactance, "reactance"}, {b.Farads, "farads"}, {b.DCOhms, "dc-ohms"}, {b.Volts, "volts"},
			{b.DCVolts, "dc-volts"}, {b.Closed, "closed"}} {
			m.formula(f.text, f.what, formula.Numeric)
		}
	}
	for _, r := range m.Rules {
		m.formula(r.To, "a rule", m.types[r.Set.Value])
	}
	for _, r := range m.Slow {
		m.formula(r.To, "a slow rule", m.types[r.Set.Value])
	}
	for _, t := range m.Trips {
		m.formula(t.Overload, "an overload", formula.Numeric)
		m.constant(t.To, t.Set.Value)
	}
}

// constant reports a value of another kind than its variable's.
func (m *modelCheck) constant(to strict.Text, variable string) {
	holds, known := m.holds[variable]
	if err := holds.Fits(variable, to.Value); known && to.Value != "" && err != nil {
		to.Problem("%v", err)
	}
}

func (m *modelCheck) formula(t strict.Text, what string, gives formula.Type) {
	f, errs := formula.Parse(t.Value)
	if t.Value == "" || len(errs) > 0 {
		return // reported where it was read
	}
	v, errs := formula.Compile(f, formula.Resolver[struct{}]{Words: &formula.Words{}, Name: m.resolveName, Call: m.resolveCall})
	complain(t, what, errs)
	if len(errs) == 0 && v.Type != gives && v.Type != formula.Untyped && gives != formula.Untyped {
		t.Problem("in %s: it gives %s; expected %s", what, v.Type, gives)
	}
}

func stand(t formula.Type) formula.Value[struct{}] {
	return formula.Of(t, func(struct{}) float64 { return 0 })
}

func (m *modelCheck) resolveName(name string) (formula.Value[struct{}], error) {
	if name == "unsteady" || name == "followed" {
		return stand(formula.Untyped), nil
	}
	if t, known := m.types[name]; known {
		return stand(t), nil
	}
	return stand(formula.Untyped), formula.Unknown("a value or a variable of this model", name, slices.Sorted(maps.Keys(m.types)))
}

// resolveCall looks up what is the model's own; the rest is on the plant.
func (m *modelCheck) resolveCall(c formula.Call[struct{}]) (formula.Value[struct{}], error) {
	switch c.Name {
	case "amps", "dcamps":
		if !m.branches[c.Words[0]] && !slices.Contains(LinkKinds, m.Kind) {
			return stand(formula.Numeric), formula.AtWord(0, formula.Unknown("a branch of this model", c.Words[0], slices.Sorted(maps.Keys(m.branches))))
		}
	case "setting":
		return stand(formula.Wordy), nil
	case "part":
		return stand(formula.Untyped), nil
	case "box", "device":
		t, err := implicitType(c.Name, c.Field)
		return stand(t), err
	case "after", "swings":
		return stand(formula.Untyped), fmt.Errorf("%s belongs to signs and answers; a model may not act on the plant", c.Name)
	}
	return stand(formula.Numeric), nil
}
