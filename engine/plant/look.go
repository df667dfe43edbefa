package plant

import (
	"fmt"

	"faultwalk/trees"
	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// look gives the first answer of a look that holds; empty if none does, for
// then the plant as it is shows nothing that this look could say.
func (s *Subject) look(c *trees.BoundCheck) (string, error) {
	for _, a := range c.Answers {
		if a.When.Value == "" {
			return a.ID, nil
		}
		f, err := s.m.formula(a.When)
		if err != nil {
			return "", fmt.Errorf("the answer %q of %s: %w", a.ID, c.ID, err)
		}
		if f(s) != 0 {
			return a.ID, nil
		}
	}
	return "", nil
}

// Shows says whether somebody notices a sign on this plant.
func (s *Subject) Shows(sign *trees.Sign) bool {
	n := s.m.noticed(sign)
	if n.f == nil {
		return false
	}
	s.bringAs(n.key, n.standing)
	return n.f(s) != 0
}

// noticed is a sign made ready: how the plant stands for it, and its formula, nil
// where that cannot be worked out here.
type noticed struct {
	standing Standing
	key      string
	f        func(*Subject) float64
}

func (m *Model) noticed(sign *trees.Sign) *noticed {
	m.lock.Lock()
	known := m.signs[sign]
	m.lock.Unlock()
	if known != nil {
		return known
	}
	n := &noticed{standing: Standing{Calls: map[string]bool{}}}
	for _, c := range sign.Calls {
		n.standing.Calls[c.Call.Value] = c.On
	}
	n.key = n.standing.key()
	n.f, _ = m.formula(sign.Shows)
	m.lock.Lock()
	defer m.lock.Unlock()
	m.signs[sign] = n
	return n
}

// formula compiles a formula beside the plant, once.
func (m *Model) formula(t strict.Text) (func(*Subject) float64, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	if known, ok := m.formulas[t.Value]; ok {
		return known.f, known.err
	}
	sc := &scope{m: m}
	f, errs := formula.Parse(t.Value)
	var v numeric
	if len(errs) == 0 {
		v, errs = formula.Compile(f, formula.Resolver[*Subject]{Words: &m.words, Name: sc.name, Call: sc.call})
	}
	var c compiled
	if len(errs) > 0 {
		c.err = errs.In(t, "a formula").Err()
	} else {
		c.f = v.Func()
	}
	m.formulas[t.Value] = c
	return c.f, c.err
}

// compiled is a formula beside the plant, or what is wrong with it.
type compiled struct {
	f   func(*Subject) float64
	err error
}

// Problems gives what is wrong with the formulas of a graph's looks, and of a
// sign's, on this plant.
func (m *Model) Problems(checks []*trees.BoundCheck, signs []*trees.Sign) (all strict.Problems) {
	try := func(t strict.Text) {
		if t.Value == "" {
			return
		}
		if _, err := m.formula(t); err != nil {
			all = append(all, problemAt(t.Pos, "%s", err))
		}
	}
	for _, c := range checks {
		for _, a := range c.Answers {
			try(a.When)
		}
	}
	for _, s := range signs {
		try(s.Shows)
	}
	return all
}
