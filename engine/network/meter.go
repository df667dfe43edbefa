package network

import (
	"math"
	"math/cmplx"
)

// column is the volts of every node for one ampere fed into a and taken out of
// b, all EMFs off.
type column[T scalar] struct {
	known bool // for a and b and the admittances as they are
	a, b  Node
	apart bool // no current can flow from a to b
	volts []T
}

func newColumn[T scalar](p *pattern) column[T] { return column[T]{volts: make([]T, p.n)} }

// find brings the column to a and b.
func (c *column[T]) find(f *factor[T], a, b Node) {
	if c.known && c.a == a && c.b == b {
		return
	}
	c.known, c.a, c.b = true, a, b
	c.apart = f.root(f.p.position(a)) != f.root(f.p.position(b))
	if c.apart {
		return
	}
	clear(c.volts)
	feed(c.volts, a, b, 1)
	f.solve(c.volts, c.volts)
}

// across is the impedance between the two nodes.
func (c *column[T]) across() T { return at(c.volts, c.a) - at(c.volts, c.b) }

// Seen is what the network is between two nodes with every EMF off (Thévenin):
// ohms at mains frequency and at dc, infinite where no way leads from one to
// the other. Solve must have run since the last change.
func (s *Solver) Seen(a, b Node) (z complex128, r float64) {
	z, r = cmplx.Inf(), math.Inf(1)
	if c := s.ac.look(a, b); !c.apart {
		z = c.across()
	}
	if c := s.dc.look(a, b); !c.apart {
		r = c.across()
	}
	return z, r
}

// look is a column for Seen; the meter's own is used if it is the same.
func (d *side[T]) look(a, b Node) *column[T] {
	if m := &d.meter; m.known && m.a == a && m.b == b {
		return m
	}
	d.seen.find(&d.factor, a, b)
	return &d.seen
}

// View is the network with a meter between two nodes. It is valid until the
// next Load, Solve, Set or Source of its solver.
type View struct {
	s        *Solver
	ampsAC   complex128 // what the meter draws, a to b
	ampsDC   float64
	shiftAC  complex128 // what an island is lifted by that only the meter holds
	shiftDC  float64
	islandAC int32 // its root
	islandDC int32
}

// Load puts a meter of y siemens (ac) and g siemens (dc) between two nodes, by
// a low-rank update of the solved network. Solve must have run since the last
// change.
func (s *Solver) Load(a, b Node, y complex128, g float64) View {
	v := View{s: s}
	v.ampsAC, v.shiftAC, v.islandAC = s.ac.load(a, b, y)
	v.ampsDC, v.shiftDC, v.islandDC = s.dc.load(a, b, g)
	return v
}

// load gives the current a meter draws, or, where it is the only link between
// two parts of the network, what the floating one of them is lifted by.
func (d *side[T]) load(a, b Node, y T) (amps, shift T, island int32) {
	d.meter.find(&d.factor, a, b)
	open := at(d.volts, a) - at(d.volts, b)
	if !d.meter.apart {
		return open * y * d.factor.invert(1+y*d.meter.across()), 0, -1
	}
	if y == 0 {
		return 0, 0, -1
	}
	f := &d.factor
	if r := f.root(f.p.position(a)); r < int32(f.p.n) {
		return 0, -open, r
	}
	return 0, open, f.root(f.p.position(b))
}

// with is the voltage of a node under load.
func (d *side[T]) with(n Node, amps, shift T, island int32) T {
	v := at(d.volts, n)
	if amps != 0 {
		v -= amps * at(d.meter.volts, n)
	}
	if shift != 0 && d.factor.root(d.factor.p.position(n)) == island {
		v += shift
	}
	return v
}

// AC is the phasor of a node against earth, volts rms.
func (v View) AC(n Node) complex128 { return v.s.ac.with(n, v.ampsAC, v.shiftAC, v.islandAC) }

// DC is the dc voltage of a node against earth.
func (v View) DC(n Node) float64 { return v.s.dc.with(n, v.ampsDC, v.shiftDC, v.islandDC) }

// Volts is the ac voltage between two nodes, volts rms.
func (v View) Volts(a, b Node) float64 { return cmplx.Abs(v.AC(a) - v.AC(b)) }

// VoltsDC is the dc voltage of a against b.
func (v View) VoltsDC(a, b Node) float64 { return v.DC(a) - v.DC(b) }

// Amps is the phasor of the current in a branch, amperes rms, From to To.
func (v View) Amps(branch int) complex128 {
	b := &v.s.branches[branch]
	return (v.AC(b.From) - v.AC(b.To) - b.E) * b.Y
}

// AmpsDC is the dc current in a branch, amperes, From to To.
func (v View) AmpsDC(branch int) float64 {
	b := &v.s.branches[branch]
	return (v.DC(b.From) - v.DC(b.To) - b.EDC) * b.G
}

// Drawn is the current of the meter itself, a to b: the ac phasor in amperes
// rms, and dc amperes.
func (v View) Drawn() (ac complex128, dc float64) { return v.ampsAC, v.ampsDC }
