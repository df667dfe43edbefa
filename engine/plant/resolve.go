package plant

import (
	"fmt"

	"faultwalk/trees/formula"
)

// name resolves a bare name: a variable or a value of the part itself.
func (sc *scope) name(name string) (numeric, error) {
	if sc.part != nil {
		if v, ok := sc.thing(sc.part.ID, name); ok {
			return v, nil
		}
	}
	switch {
	case name == "unsteady":
		sc.dynamic, sc.network = true, true
		return formula.Of(formula.Numeric, func(s *Subject) float64 { return truth(len(s.visits) > 0) }), nil
	case name == "followed" && sc.part != nil && sc.part.Follows.Value != "":
		sc.dynamic, sc.network = sc.dynamic || sc.dynamicFollows, sc.network || sc.networkFollows
		sc.reads = append(sc.reads, sc.followsReads...)
		return sc.follows, nil
	case name == "followed" && sc.part != nil:
		return numeric{}, fmt.Errorf("the part %q of the plant says nothing under %q, and its model needs it; expected a formula there", sc.part.ID, "follows")
	case sc.part == nil:
		return numeric{}, fmt.Errorf("%q means nothing here; expected a name in brackets and quotes, as in part(\"diverter\").body", name)
	}
	return numeric{}, formula.Unknown("a value or a variable of this model", name, sc.own())
}

// thing is a variable or a value of a part.
func (sc *scope) thing(part, name string) (numeric, bool) {
	full := part + "." + name
	if i, ok := sc.m.varAt[full]; ok {
		return sc.variable(i), true
	}
	if i, ok := sc.m.valueAt[full]; ok {
		return formula.Of(formula.Numeric, func(s *Subject) float64 { return s.values[i] }), true
	}
	return numeric{}, false
}

func (sc *scope) variable(i int) numeric {
	sc.dynamic = true
	sc.reads = append(sc.reads, i)
	return formula.Of(sc.m.vars[i].holds.Type(), func(s *Subject) float64 { return s.v[i] })
}

// call resolves a function that names things.
func (sc *scope) call(c formula.Call[*Subject]) (numeric, error) {
	switch c.Name {
	case "has":
		return formula.Truth[*Subject](sc.m.Plant.Part(c.Words[0]) != nil), nil
	case "part":
		return sc.ofPart(c)
	case "setting":
		if i, ok := sc.m.varAt["setting "+c.Words[0]]; ok {
			return sc.variable(i), nil
		}
		return numeric{Type: formula.Wordy, Known: true, Number: sc.m.words.ID("right")}, nil
	case "called":
		return sc.implicit("call "+c.Words[0], "a call", c.Words[0], sc.calls())
	case "box", "device":
		return sc.implicit(c.Name+" "+c.Words[0]+" "+c.Field, "a "+c.Name, c.Words[0], sc.things(c.Name))
	}
	if sc.drives && (c.Name == "swings" || c.Name == "after") {
		return numeric{}, fmt.Errorf("%s belongs to signs and answers; what drives a part may not act on the plant", c.Name)
	}
	switch c.Name {
	case "swings":
		sc.dynamic = true
		return formula.Of(formula.Numeric, func(s *Subject) float64 { return truth(s.swings(c.Of.Func())) }), nil
	case "after":
		return sc.after(c)
	}
	return sc.measured(c)
}

func (sc *scope) ofPart(c formula.Call[*Subject]) (numeric, error) {
	if sc.m.Plant.Part(c.Words[0]) == nil {
		var known []string
		for _, p := range sc.m.Plant.Parts {
			known = append(known, p.ID)
		}
		return numeric{}, formula.AtWord(0, formula.Unknown("a part of the plant "+sc.m.Plant.ID, c.Words[0], known))
	}
	v, ok := sc.thing(c.Words[0], c.Field)
	if !ok {
		return numeric{}, formula.AtField(fmt.Errorf("the part %q has no variable or value %q", c.Words[0], c.Field))
	}
	return v, nil
}

// implicit is a variable that the plant itself brings, of a call, a box or a
// device.
func (sc *scope) implicit(name, what, id string, known []string) (numeric, error) {
	if i, ok := sc.m.varAt[name]; ok {
		return sc.variable(i), nil
	}
	return numeric{}, formula.AtWord(0, formula.Unknown(what+" of the plant "+sc.m.Plant.ID, id, known))
}

// things are the ids of the plant's boxes or devices.
func (sc *scope) things(kind string) (ids []string) {
	if kind == "box" {
		for _, e := range sc.m.Plant.Enclosures {
			ids = append(ids, e.ID)
		}
		return ids
	}
	for _, d := range sc.m.Plant.Devices {
		ids = append(ids, d.ID)
	}
	return ids
}

func (sc *scope) calls() (ids []string) {
	for _, c := range sc.m.Plant.Calls {
		ids = append(ids, c.ID)
	}
	return ids
}

func (sc *scope) after(c formula.Call[*Subject]) (numeric, error) {
	for _, a := range c.Acts {
		if err := sc.m.may(a); err != nil {
			return numeric{}, err
		}
	}
	sc.dynamic = true
	acts, of := newActs(c.Acts), c.Of.Func()
	return formula.Of(c.Of.Type, func(s *Subject) float64 { return s.after(acts, of) }), nil
}
