package plant

import (
	"fmt"

	"faultwalk/engine/network"
	"faultwalk/trees"
	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

type numeric = formula.Value[*Subject]

// scope is where a formula stands: inside the model of a part, or (part nil)
// beside the plant, where only quoted names mean something. It notes what the
// formulas read, so that branches no state moves are worked out once.
type scope struct {
	m              *Model
	part           *trees.Part
	model          *trees.Model
	follows        numeric
	dynamicFollows bool
	followsReads   []int
	dynamic        bool  // since the last took
	reads          []int // variables read since the last took
	electric       bool  // what is compiled now belongs to a branch
}

// took says whether what was compiled since depends on the state, and begins anew.
func (sc *scope) took() bool {
	was := sc.dynamic
	for _, i := range sc.reads {
		sc.m.electric[i] = true
	}
	sc.dynamic, sc.reads = false, nil
	return was
}

// compile reads a formula; what is wrong with it is recorded at its place.
func (sc *scope) compile(t strict.Text, what string) numeric {
	f, errs := formula.Parse(t.Value)
	if len(errs) == 0 {
		var v numeric
		if v, errs = formula.Compile(f, formula.Resolver[*Subject]{Words: &sc.m.words, Name: sc.name, Call: sc.call}); len(errs) == 0 {
			return v
		}
	}
	sc.m.problems = append(sc.m.problems, errs.In(t, what)...)
	return formula.Constant[*Subject](0)
}

func (sc *scope) function(t strict.Text, what string) func(*Subject) float64 {
	f := sc.compile(t, what).Func()
	sc.dynamic, sc.reads = false, nil
	return f
}

// optional is nil for a formula that is not there.
func (sc *scope) optional(t strict.Text, what string) func(*Subject) float64 {
	if t.Value == "" {
		return nil
	}
	return sc.compile(t, what).Func()
}

func (sc *scope) own() []string {
	var names []string
	for _, v := range sc.model.Variables {
		names = append(names, v.ID.Value)
	}
	return names
}

func (sc *scope) inner(name string) bool {
	for _, n := range sc.model.Nodes {
		if n.Value == name {
			return true
		}
	}
	return false
}

func (sc *scope) mayLack(name string) bool {
	for _, n := range sc.model.Optional {
		if n.Value == name {
			return true
		}
	}
	return false
}

// name resolves a bare name: a variable or a value of the part itself.
func (sc *scope) name(name string) (numeric, error) {
	if sc.part != nil {
		if v, ok := sc.thing(sc.part.ID, name); ok {
			return v, nil
		}
	}
	switch {
	case name == "unsteady":
		sc.dynamic = true
		return formula.Of(formula.Numeric, func(s *Subject) float64 { return truth(len(s.visits) > 0) }), nil
	case name == "followed" && sc.part != nil && sc.part.Follows.Value != "":
		sc.dynamic = sc.dynamic || sc.dynamicFollows
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
	return formula.Of(sc.m.vars[i].typ, func(s *Subject) float64 { return s.v[i] })
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
		return sc.implicit("call "+c.Words[0], "a call of the plant", c.Words[0])
	case "box", "device":
		return sc.implicit(c.Name+" "+c.Words[0]+" "+c.Field, "a "+c.Name+" of the plant", c.Words[0])
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

// implicit is a variable that the plant itself brings. A call, a box or a
// device that the plant has not is never made, wet or off.
func (sc *scope) implicit(name, what, id string) (numeric, error) {
	if i, ok := sc.m.varAt[name]; ok {
		return sc.variable(i), nil
	}
	return numeric{}, formula.AtWord(0, fmt.Errorf("there is no %s %q", what[2:], id))
}

func (sc *scope) after(c formula.Call[*Subject]) (numeric, error) {
	acts, of := c.Acts, c.Of.Func()
	for _, a := range acts {
		if err := sc.m.may(a); err != nil {
			return numeric{}, err
		}
	}
	sc.dynamic = true
	return formula.Of(c.Of.Type, func(s *Subject) float64 { return s.after(acts, of) }), nil
}

// measured resolves volts and amperes of the network.
func (sc *scope) measured(c formula.Call[*Subject]) (numeric, error) {
	sc.dynamic = true
	if c.Name == "amps" || c.Name == "dcamps" {
		i, ok := sc.m.branchAt[sc.local("/", c.Words[0])]
		if !ok {
			if i, ok = sc.m.branchAt[c.Words[0]]; !ok {
				// A branch at a terminal that this part leaves out carries nothing.
				return formula.Constant[*Subject](0), nil
			}
		}
		if c.Name == "amps" {
			return formula.Of(formula.Numeric, func(s *Subject) float64 { return s.amps(i) }), nil
		}
		return formula.Of(formula.Numeric, func(s *Subject) float64 { return s.meter.AmpsDC(i) }), nil
	}
	a, err := sc.node(c.Words[0])
	if err != nil {
		return numeric{}, formula.AtWord(0, err)
	}
	z, err := sc.node(c.Words[1])
	if err != nil {
		return numeric{}, formula.AtWord(1, err)
	}
	if c.Name == "volts" {
		return formula.Of(formula.Numeric, func(s *Subject) float64 { return s.meter.Volts(a, z) }), nil
	}
	return formula.Of(formula.Numeric, func(s *Subject) float64 { return s.meter.VoltsDC(a, z) }), nil
}

func (sc *scope) local(sep, name string) string {
	if sc.part == nil {
		return name
	}
	return sc.part.ID + sep + name
}

func (sc *scope) node(name string) (network.Node, error) {
	if sc.part == nil {
		if n, ok := sc.m.nodeOf(name); ok {
			return n, nil
		}
		return 0, fmt.Errorf("there is no point %q on the plant", name)
	}
	if sc.inner(name) {
		return sc.m.net.Node(sc.part.ID + "/" + name), nil
	}
	if sc.part.Terminals[name] != "" {
		return sc.m.net.Node(sc.part.ID + "." + name), nil
	}
	if name == "ground" {
		return network.Earth, nil
	}
	if sc.mayLack(name) { // nothing is there: its own node, held by air alone
		return sc.m.net.Node(sc.part.ID + "." + name), nil
	}
	return 0, fmt.Errorf("the part %q has no terminal or node %q", sc.part.ID, name)
}
