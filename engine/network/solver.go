package network

import (
	"fmt"
	"math/cmplx"
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
	sources  []int32 // branches that have, or had, an EMF
	based    bool    // baseAC and baseDC hold all branches but the movers
	baseAC   []complex128
	baseDC   []float64
	ac       side[complex128]
	dc       side[float64]
}

// side is the ac or the dc half of a solver.
type side[T scalar] struct {
	factor factor[T]
	volts  []T  // by node
	fed    []T  // by node, amperes
	stale  bool // something changed since volts were found
	meter  column[T]
	seen   column[T]
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
		if b.E != 0 || b.EDC != 0 {
			s.sources = append(s.sources, int32(i))
		}
	}
	return s, true
}

func newSide[T scalar](p *pattern, invert func(T) T) side[T] {
	return side[T]{
		factor: newFactor(p, invert), stale: true,
		volts: make([]T, p.n), fed: make([]T, p.n),
		meter: newColumn[T](p), seen: newColumn[T](p),
	}
}

// Set gives a branch other admittances: y siemens at mains frequency, g
// siemens at dc. Values it has already cost nothing.
func (s *Solver) Set(branch int, y complex128, g float64) {
	b := &s.branches[branch]
	if b.Y == y && b.G == g {
		return
	}
	s.ac.stale = s.ac.stale || b.Y != y
	s.dc.stale = s.dc.stale || b.G != g
	b.Y, b.G = y, g
	if !s.moving[branch] {
		s.moving[branch] = true
		s.movers = append(s.movers, int32(branch))
		s.based = false
	}
}

// Source gives a branch other EMFs in volts, plus at From.
func (s *Solver) Source(branch int, e complex128, edc float64) {
	b := &s.branches[branch]
	if b.E == e && b.EDC == edc {
		return
	}
	s.ac.stale = s.ac.stale || b.E != e
	s.dc.stale = s.dc.stale || b.EDC != edc
	if b.E == 0 && b.EDC == 0 && !s.isSource(branch) {
		s.sources = append(s.sources, int32(branch))
	}
	b.E, b.EDC = e, edc
}

func (s *Solver) isSource(branch int) bool {
	for _, i := range s.sources {
		if int(i) == branch {
			return true
		}
	}
	return false
}

// Branch is a branch as it stands now.
func (s *Solver) Branch(branch int) Branch { return s.branches[branch] }

// Solve finds the volts of all nodes. What nothing changed in since the last
// call, ac or dc, is left as it is.
func (s *Solver) Solve() {
	if !s.ac.stale && !s.dc.stale {
		return
	}
	s.base()
	if s.ac.stale {
		s.solveAC()
	}
	if s.dc.stale {
		s.solveDC()
	}
}

// base stamps the branches that never moved; every solve starts from it.
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

func (s *Solver) solveAC() {
	copy(s.ac.factor.share, s.baseAC)
	for _, i := range s.movers {
		if slot := s.slots[i]; slot >= 0 {
			s.ac.factor.share[slot] += s.branches[i].Y
		}
	}
	clear(s.ac.fed)
	for _, i := range s.sources {
		b := &s.branches[i]
		feed(s.ac.fed, b.From, b.To, b.E*b.Y)
	}
	s.ac.finish()
}

func (s *Solver) solveDC() {
	copy(s.dc.factor.share, s.baseDC)
	for _, i := range s.movers {
		if slot := s.slots[i]; slot >= 0 {
			s.dc.factor.share[slot] += s.branches[i].G
		}
	}
	clear(s.dc.fed)
	for _, i := range s.sources {
		b := &s.branches[i]
		feed(s.dc.fed, b.From, b.To, b.EDC*b.G)
	}
	s.dc.finish()
}

// finish eliminates and solves; columns found with the old values are void.
func (d *side[T]) finish() {
	d.factor.eliminate()
	d.factor.solve(d.fed, d.volts)
	d.stale = false
	d.meter.known, d.seen.known = false, false
}

// feed puts a current into one node and takes it out of another.
func feed[T scalar](fed []T, into, from Node, i T) {
	if into != Earth {
		fed[into] += i
	}
	if from != Earth {
		fed[from] -= i
	}
}

// AC is the phasor of a node against earth, volts rms.
func (s *Solver) AC(n Node) complex128 { return at(s.ac.volts, n) }

// DC is the dc voltage of a node against earth.
func (s *Solver) DC(n Node) float64 { return at(s.dc.volts, n) }

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

func at[T scalar](volts []T, n Node) T {
	if n == Earth {
		return 0
	}
	return volts[n]
}
