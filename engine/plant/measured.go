package plant

import (
	"fmt"
	"maps"
	"slices"

	"faultwalk/engine/network"
	"faultwalk/trees/formula"
)

// measured resolves volts and amperes of the network.
func (sc *scope) measured(c formula.Call[*Subject]) (numeric, error) {
	sc.dynamic, sc.network = true, true
	if c.Name == "amps" || c.Name == "dcamps" {
		return sc.current(c)
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
		return formula.Of(formula.Numeric, func(s *Subject) float64 { return s.read().Volts(a, z) }), nil
	}
	return formula.Of(formula.Numeric, func(s *Subject) float64 { return s.read().VoltsDC(a, z) }), nil
}

// current resolves the amperes of a branch: in a model one of its own, beside
// the plant "part/branch", a core or a pole.
func (sc *scope) current(c formula.Call[*Subject]) (numeric, error) {
	name := c.Words[0]
	i, ok := sc.m.branchAt[sc.local("/", name)]
	switch {
	case !ok && sc.part != nil && sc.lacks(name):
		return formula.Constant[*Subject](0), nil
	case !ok:
		return numeric{}, formula.AtWord(0, fmt.Errorf("there is no branch %q%s", name, hint(name, slices.Sorted(maps.Keys(sc.m.branchAt)))))
	case c.Name == "amps":
		return formula.Of(formula.Numeric, func(s *Subject) float64 { return s.amps(i) }), nil
	}
	return formula.Of(formula.Numeric, func(s *Subject) float64 { return s.read().AmpsDC(i) }), nil
}

// lacks says whether a branch of the model is not there because the part
// leaves out a terminal of it: it carries nothing.
func (sc *scope) lacks(branch string) bool {
	for _, b := range sc.model.Branches {
		if b.ID.Value == branch {
			return true
		}
	}
	return false
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
