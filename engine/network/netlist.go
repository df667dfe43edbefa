package network

import (
	"io"

	"faultwalk/engine/network/internal/spice"
)

// Netlist writes the network for SPICE: a deck that ngspice runs unchanged in
// batch (ngspice -b), which does the dc operating point and one ac analysis at
// frequency, in hertz, and prints every node after each. Admittances must be
// those at that frequency.
//
// Each node is called n, its number and what is left of its name; comments map
// them back and name the branches. A resistor whose value at dc differs has its
// own value under ac=. An island is held at 0 V by a resistor to earth, as the
// solver pins it.
func Netlist(w io.Writer, title string, n *Network, frequency float64) error {
	d := spice.New(w, title, n.Names, frequency)
	for i, b := range n.Held().Branches {
		d.Branch(i, spice.Branch{Name: b.Name, From: int(b.From), To: int(b.To), Y: b.Y, G: b.G, E: b.E, EDC: b.EDC})
	}
	d.Control()
	d.Line("op")
	d.PrintAll()
	d.Line("ac lin 1 %g %g", frequency, frequency)
	d.PrintAll()
	return d.End()
}

// Held is a copy of the network with each island, of dc and of ac, held at 0 V
// at the node where the solver pins it, so that no analysis has a singular
// matrix: a branch that nothing flows in.
func (n *Network) Held() *Network {
	s := NewSolver(n)
	s.Solve()
	out := n.Clone()
	for _, k := range s.ac.factor.pinned() {
		v := Node(s.ac.t.p.node[k])
		out.Add(Branch{Name: n.Name(v) + " floats at ac: held at 0 V", From: v, To: Earth, Y: 1})
	}
	for _, k := range s.dc.factor.pinned() {
		v := Node(s.dc.t.p.node[k])
		out.Add(Branch{Name: n.Name(v) + " floats at dc: held at 0 V", From: v, To: Earth, G: 1})
	}
	return out
}
