package plant

import (
	"fmt"

	"faultwalk/engine/network"
	"faultwalk/trees/formula"
)

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
