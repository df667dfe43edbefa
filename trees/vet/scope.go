package vet

import (
	"fmt"
	"slices"

	"faultwalk/trees"
	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// scope is where the names of a formula are looked up: a plant, and inside a
// model the model of a kind with the terminals its parts have there.
type scope struct {
	v         *vetting
	p         *trees.Plant
	model     *trees.Model
	terminals map[string]bool
	links     map[string]*trees.Link // cores, earth cores and poles
}

// scope gives where the names of a plant's formulas are looked up.
func (v *vetting) scope(p *trees.Plant) *scope {
	if v.here[p] == nil {
		s := &scope{v: v, p: p, links: map[string]*trees.Link{}}
		for _, l := range p.Links {
			if slices.Contains(trees.LinkKinds, l.Kind) {
				s.links[l.ID] = l
			}
		}
		v.here[p] = s
	}
	return v.here[p]
}

// of gives where the names in a model are looked up.
func (s *scope) of(m *trees.Model, terminals map[string]bool) *scope {
	inner := *s
	inner.model, inner.terminals = m, terminals
	return &inner
}

type value = formula.Value[struct{}]

func typed(t formula.Type) value { return formula.Of(t, func(struct{}) float64 { return 0 }) }

// check compiles a formula and reports what is wrong with it on this plant.
func (s *scope) check(t strict.Text, what string) {
	if t.Value == "" || !s.v.afford(compileWork, t.Pos) {
		return
	}
	f, errs := formula.Parse(t.Value)
	if len(errs) == 0 {
		_, errs = formula.Compile(f, formula.Resolver[struct{}]{Words: &formula.Words{}, Name: s.name, Call: s.call})
		errs = append(errs, s.misspelt(f)...)
	}
	for _, e := range errs {
		s.v.on(s.p, t.AtOffset(e.At), Formula, "in "+what+": "+e.Message)
	}
}

// name resolves a bare name: of the model, or what is the same everywhere.
func (s *scope) name(name string) (value, error) {
	if t, there := typeIn(s.model, name); there {
		return typed(t), nil
	}
	switch {
	case name == "unsteady":
		return typed(formula.Numeric), nil
	case name == "followed" && s.model != nil:
		return typed(formula.Untyped), nil
	case s.model == nil:
		return typed(formula.Untyped), fmt.Errorf("%q has no meaning here; expected a function, such as part(\"…\").%s", name, name)
	}
	return typed(formula.Untyped), formula.Unknown("a value or variable of the model", name, namesIn(s.model))
}

// typeIn gives what a value or a variable of a model is.
func typeIn(m *trees.Model, name string) (formula.Type, bool) {
	if m == nil {
		return formula.Untyped, false
	}
	for _, v := range m.Values {
		if v.ID.Value == name {
			return formula.Numeric, true
		}
	}
	for _, v := range m.Variables {
		if v.ID.Value == name {
			return v.Type(), true
		}
	}
	return formula.Untyped, false
}

func namesIn(m *trees.Model) []string {
	var all []string
	for _, v := range m.Values {
		all = append(all, v.ID.Value)
	}
	for _, v := range m.Variables {
		all = append(all, v.ID.Value)
	}
	return all
}

func (s *scope) call(c formula.Call[struct{}]) (value, error) {
	switch name := c.Words; c.Name {
	case "has":
		known := s.v.anyPlant(func(p *trees.Plant) bool { return p.Part(name[0]) != nil })
		return formula.Truth[struct{}](s.p.Part(name[0]) != nil), at(0, known, "no plant has the part %q", name[0])
	case "part":
		return s.part(name[0], c.Field)
	case "setting":
		known := s.v.anyPlant(func(p *trees.Plant) bool { return slices.Contains(p.Settings, name[0]) })
		return typed(formula.Wordy), at(0, known, "no plant has the setting %q", name[0])
	case "called":
		return typed(formula.Numeric), at(0, s.p.Call(name[0]) != nil, "there is no call %q", name[0])
	case "box":
		return s.implicit(c, s.p.Enclosure(name[0]) != nil, "there is no enclosure %q")
	case "device":
		return s.implicit(c, s.p.Device(name[0]) != nil, "there is no device %q")
	case "volts", "dcvolts":
		return typed(formula.Numeric), s.places(name)
	case "amps", "dcamps":
		return typed(formula.Numeric), at(0, s.branch(name[0]), "there is no branch %q", name[0])
	case "swings":
		return typed(formula.Numeric), nil
	}
	return typed(c.Of.Type), s.acts(c.Acts)
}

// at gives an error at one of the names of a call unless all is well.
func at(word int, well bool, format string, name string) error {
	if well {
		return nil
	}
	return formula.AtWord(word, fmt.Errorf(format, name))
}

func (s *scope) part(id, field string) (value, error) {
	part := s.p.Part(id)
	if part == nil {
		return typed(formula.Untyped), at(0, false, "there is no part %q", id)
	}
	m := s.v.set.Models[part.Kind]
	if m == nil {
		return typed(formula.Untyped), nil // said of the part itself
	}
	t, there := typeIn(m, field)
	if !there {
		return typed(t), formula.AtField(formula.Unknown("a value or variable of a "+part.Kind, field, namesIn(m)))
	}
	return typed(t), nil
}

func (s *scope) implicit(c formula.Call[struct{}], there bool, missing string) (value, error) {
	holds, known := trees.Implicit(c.Name, c.Field)
	t := holds.Type()
	switch {
	case !there:
		return typed(t), at(0, false, missing, c.Words[0])
	case !known:
		return typed(t), formula.AtField(fmt.Errorf("a %s has no %q", c.Name, c.Field))
	}
	return typed(t), nil
}

// places looks up two places: terminals and nodes in a model, points elsewhere.
func (s *scope) places(names []string) error {
	for i, n := range names {
		known := s.p.Point(n) != nil
		if s.model != nil {
			known = s.terminals[n] || lists(s.model.Nodes, n) || lists(s.model.Optional, n) || n == ground
		}
		if err := at(i, known, "there is no place %q", n); err != nil {
			return err
		}
	}
	return nil
}

// acts looks up what acts are done to.
func (s *scope) acts(acts []formula.Act) error {
	for _, a := range acts {
		known := true
		switch a.Verb {
		case "call", "release":
			known = s.p.Call(a.Of) != nil
		case "off", "on":
			known = s.p.Device(a.Of) != nil
		case "reset":
			known = s.p.Device(a.Of) != nil || s.p.Part(a.Of) != nil
		}
		if err := at(0, known, "there is nothing to %s", a.String()); err != nil {
			return err
		}
	}
	return nil
}
