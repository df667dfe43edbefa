package network

import (
	"fmt"
	"math/cmplx"
	"slices"
)

// Solver solves one network for as many values of its branches as wanted. It
// is for one goroutine; solvers that share a pattern may run side by side.
type Solver struct {
	names    []string
	branches []Branch // own copy, as Set and Source left them
	slots    []int32
	p        *pattern
	moving   []bool  // by branch: Set has changed it at least once
	movers   []int32 // the branches of moving
	based    bool    // baseAC and baseDC hold all branches but the movers
	baseAC   []complex128
	baseDC   []float64
	ac       side[complex128]
	dc       side[float64]
}

// side is the ac or the dc half of a solver.
type side[T scalar] struct {
	factor   factor[T]
	sources  []int32 // branches that have, or had, an EMF
	flow     flow[T] // of the sources
	altered  bool    // an admittance changed since volts were found
	restated bool    // an EMF did
	meter    column[T]
	seen     column[T]
}

// NewSolver copies the network and finds the order of elimination. It panics
// if a branch names a node that is not in the network: that is the caller's
// mistake, never a user's.
func NewSolver(n *Network) *Solver {
	n.check()
	s, _ := solverOn(analyse(n), n)
	return s
}

// Share gives a solver of another network that uses the pattern of s, if every
// branch of n has a place in it (the same nodes in the same order, joined the
// same way or less); otherwise n is analysed afresh.
func (s *Solver) Share(n *Network) *Solver {
	n.check()
	if len(n.Names) == s.p.n {
		if t, ok := solverOn(s.p, n); ok {
			return t
		}
	}
	return NewSolver(n)
}

func (n *Network) check() {
	for i, b := range n.Branches {
		for _, v := range []Node{b.From, b.To} {
			if v < Earth || int(v) >= len(n.Names) {
				panic(fmt.Sprintf("network: branch %d %q is at node %d, expected %d to %d", i, b.Name, v, Earth, len(n.Names)-1))
			}
		}
	}
}

// solverOn makes a solver on a pattern, and false if a branch has no place.
func solverOn(p *pattern, n *Network) (*Solver, bool) {
	s := &Solver{
		p: p, names: n.Names[:len(n.Names):len(n.Names)], branches: append([]Branch(nil), n.Branches...),
		slots: make([]int32, len(n.Branches)), moving: make([]bool, len(n.Branches)),
		baseAC: make([]complex128, len(p.row)), baseDC: make([]float64, len(p.row)),
		ac: newSide(p, invertPhasor), dc: newSide(p, invertReal),
	}
	for i, b := range n.Branches {
		slot, ok := p.slot(b.From, b.To)
		if !ok {
			return nil, false
		}
		s.slots[i] = slot
		s.ac.source(i, b, b.E)
		s.dc.source(i, b, b.EDC)
	}
	return s, true
}

func newSide[T scalar](p *pattern, invert func(T) T) side[T] {
	return side[T]{
		factor: newFactor(p, invert), flow: newFlow[T](p), altered: true,
		meter: newColumn[T](p), seen: newColumn[T](p),
	}
}

// source takes a branch among the sources from the first EMF it has.
func (d *side[T]) source(branch int, b Branch, e T) {
	if e == 0 || slices.Contains(d.sources, int32(branch)) {
		return
	}
	d.sources = append(d.sources, int32(branch))
	d.flow.reach(d.factor.p, d.factor.p.column(b.From, b.To))
}

// Set gives a branch other admittances: y siemens at mains frequency, g
// siemens at dc. Values it has already cost nothing.
func (s *Solver) Set(branch int, y complex128, g float64) {
	b := &s.branches[branch]
	if b.Y == y && b.G == g {
		return
	}
	s.ac.altered = s.ac.altered || b.Y != y
	s.dc.altered = s.dc.altered || b.G != g
	b.Y, b.G = y, g
	if !s.moving[branch] {
		s.moving[branch] = true
		s.movers = append(s.movers, int32(branch))
		s.based = false
	}
}

// Source gives a branch other EMFs in volts, plus at From. Values it has
// already cost nothing.
func (s *Solver) Source(branch int, e complex128, edc float64) {
	b := &s.branches[branch]
	s.ac.restated = s.ac.restated || b.E != e
	s.dc.restated = s.dc.restated || b.EDC != edc
	b.E, b.EDC = e, edc
	s.ac.source(branch, *b, e)
	s.dc.source(branch, *b, edc)
}

// Branch is a branch as it stands now.
func (s *Solver) Branch(branch int) Branch { return s.branches[branch] }

// Solve finds the volts of all nodes. What nothing changed in since the last
// call, ac or dc, is left as it is.
func (s *Solver) Solve() {
	if s.ac.altered || s.dc.altered {
		s.base()
	}
	if s.ac.altered {
		s.eliminateAC()
	}
	if s.ac.altered || s.ac.restated {
		s.flowAC()
	}
	if s.dc.altered {
		s.eliminateDC()
	}
	if s.dc.altered || s.dc.restated {
		s.flowDC()
	}
}

// base stamps the branches that never moved; every elimination starts from it.
func (s *Solver) base() {
	if s.based {
		return
	}
	clear(s.baseAC)
	clear(s.baseDC)
	for i, slot := range s.slots {
		if slot >= 0 && !s.moving[i] {
			s.baseAC[slot] += s.branches[i].Y
			s.baseDC[slot] += s.branches[i].G
		}
	}
	s.based = true
}

func (s *Solver) eliminateAC() {
	copy(s.ac.factor.share, s.baseAC)
	for _, i := range s.movers {
		if slot := s.slots[i]; slot >= 0 {
			s.ac.factor.share[slot] += s.branches[i].Y
		}
	}
	s.ac.eliminate()
}

func (s *Solver) eliminateDC() {
	copy(s.dc.factor.share, s.baseDC)
	for _, i := range s.movers {
		if slot := s.slots[i]; slot >= 0 {
			s.dc.factor.share[slot] += s.branches[i].G
		}
	}
	s.dc.eliminate()
}

// eliminate runs the elimination; columns found with the old values are void.
func (d *side[T]) eliminate() {
	d.factor.eliminate()
	d.meter.known, d.seen.known = false, false
}

func (s *Solver) flowAC() {
	s.ac.flow.still(s.p)
	for _, i := range s.ac.sources {
		b := &s.branches[i]
		s.ac.flow.emf(s.p, s.slots[i], b, b.E*b.Y)
	}
	s.ac.finish()
}

func (s *Solver) flowDC() {
	s.dc.flow.still(s.p)
	for _, i := range s.dc.sources {
		b := &s.branches[i]
		s.dc.flow.emf(s.p, s.slots[i], b, b.EDC*b.G)
	}
	s.dc.finish()
}

// volts is the voltage of a node as solved.
func (d *side[T]) volts(n Node) T { return d.flow.volts[d.factor.p.position(n)] }

func (d *side[T]) finish() {
	d.flow.spread(&d.factor)
	d.flow.all(&d.factor)
	d.altered, d.restated = false, false
}

// AC is the phasor of a node against earth, volts rms.
func (s *Solver) AC(n Node) complex128 { return s.ac.volts(n) }

// DC is the dc voltage of a node against earth.
func (s *Solver) DC(n Node) float64 { return s.dc.volts(n) }

// Volts is the ac voltage between two nodes, volts rms.
func (s *Solver) Volts(a, b Node) float64 { return cmplx.Abs(s.AC(a) - s.AC(b)) }

// VoltsDC is the dc voltage of a against b.
func (s *Solver) VoltsDC(a, b Node) float64 { return s.DC(a) - s.DC(b) }

// Amps is the phasor of the current in a branch, amperes rms, From to To.
func (s *Solver) Amps(branch int) complex128 {
	b := &s.branches[branch]
	return (s.AC(b.From) - s.AC(b.To) - b.E) * b.Y
}

// AmpsDC is the dc current in a branch, amperes, From to To.
func (s *Solver) AmpsDC(branch int) float64 {
	b := &s.branches[branch]
	return (s.DC(b.From) - s.DC(b.To) - b.EDC) * b.G
}
