package network

import (
	"math"
	"math/cmplx"
)

// Seen is what the network is between two nodes with every EMF off (Thévenin):
// ohms at mains frequency and at dc, infinite where no way leads from one to
// the other. Solve must have run since the last change.
func (s *Solver) Seen(a, b Node) (z complex128, r float64) {
	z, r = cmplx.Inf(), math.Inf(1)
	if c := s.ac.look(a, b); !c.apart {
		z = c.across(&s.ac.factor)
	}
	if c := s.dc.look(a, b); !c.apart {
		r = c.across(&s.dc.factor)
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
// next Load or Solve of its solver.
type View struct {
	s  *Solver
	ac burden[complex128]
	dc burden[float64]
}

// burden is what a meter does to one network.
type burden[T scalar] struct {
	amps   T     // what it draws, from a to b
	shift  T     // what the island is lifted by that only the meter holds
	island int32 // the root of that island
}

// Load puts a meter of y siemens (ac) and g siemens (dc) between two nodes, by
// a low-rank update of the solved network. Solve must have run since the last
// change.
func (s *Solver) Load(a, b Node, y complex128, g float64) View {
	return View{s: s, ac: s.ac.load(a, b, y), dc: s.dc.load(a, b, g)}
}

// load gives the current a meter draws, or, where it is the only link between
// two parts of the network, what the floating one of them is lifted by.
func (d *side[T]) load(a, b Node, y T) burden[T] {
	f := &d.factor
	p := f.p
	d.meter.find(f, a, b)
	open := d.volts(a) - d.volts(b)
	if !d.meter.apart {
		return burden[T]{amps: open * y * f.invert(1+y*d.meter.across(f))}
	}
	if y == 0 {
		return burden[T]{}
	}
	if r := f.root(p.position(a)); r < int32(p.n) {
		return burden[T]{shift: -open, island: r}
	}
	return burden[T]{shift: open, island: f.root(p.position(b))}
}

// with is the voltage of a position under a burden.
func (d *side[T]) with(m burden[T], k int32) T {
	v := d.at(k)
	if m.amps != 0 {
		v -= m.amps * d.meter.flow.at(&d.factor, k)
	}
	if m.shift != 0 && d.factor.root(k) == m.island {
		v += m.shift
	}
	return v
}

// ampsWith is the current of a branch under a burden.
func (d *side[T]) ampsWith(m burden[T], branch int) T {
	at := &d.t.places[branch]
	return (d.with(m, at.from) - d.with(m, at.to) - d.e[branch]) * d.y[branch]
}

// AC is the phasor of a node against earth, volts rms.
func (v View) AC(n Node) complex128 { return v.s.ac.with(v.ac, v.s.ac.t.p.position(n)) }

// DC is the dc voltage of a node against earth.
func (v View) DC(n Node) float64 { return v.s.dc.with(v.dc, v.s.dc.t.p.position(n)) }

// Volts is the ac voltage between two nodes, volts rms.
func (v View) Volts(a, b Node) float64 { return Magnitude(v.AC(a) - v.AC(b)) }

// VoltsDC is the dc voltage of a against b.
func (v View) VoltsDC(a, b Node) float64 { return v.DC(a) - v.DC(b) }

// Amps is the phasor of the current in a branch, amperes rms, From to To.
func (v View) Amps(branch int) complex128 { return v.s.ac.ampsWith(v.ac, branch) }

// AmpsDC is the dc current in a branch, amperes, From to To.
func (v View) AmpsDC(branch int) float64 { return v.s.dc.ampsWith(v.dc, branch) }

// Drawn is the current of the meter itself, a to b: the ac phasor in amperes
// rms, and dc amperes.
func (v View) Drawn() (ac complex128, dc float64) { return v.ac.amps, v.dc.amps }
