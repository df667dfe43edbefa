package network

import "math"

// Solver solves one network for as many values of its branches as wanted. It
// is for one goroutine; solvers made by Share may run side by side.
type Solver struct {
	n     *Network  // names only
	first *topology // the one that was analysed
	ac    side[complex128]
	dc    side[float64]
}

// NewSolver copies the values of a network and finds the order of elimination,
// which takes as long as ten solutions. It panics if a branch names a node that
// is not in the network: that is the program's mistake, never a user's. The
// names of n must stay as they are.
func NewSolver(n *Network) *Solver {
	n.check()
	t, _ := lay(analyse(n), n, nil)
	s := &Solver{first: t}
	s.start(t, n)
	return s
}

// Share gives a solver of another network and saves the analysis: all of it
// where n has the same nodes and is joined the same way, most of it where
// branches go elsewhere, were added or left out. With other nodes n is
// analysed afresh. Several goroutines may share one solver that none changes.
func (s *Solver) Share(n *Network) *Solver {
	if len(n.Names) != s.first.p.n {
		return NewSolver(n)
	}
	out := &Solver{first: s.first}
	out.start(s.topology(n), n)
	return out
}

// Take makes s itself the solver of another network. It is Share that needs no
// new room: it allocates nothing where n is joined the same way, little where
// branches were added or go elsewhere.
func (s *Solver) Take(n *Network) {
	switch {
	case len(n.Names) != s.first.p.n:
		*s = *NewSolver(n)
	case s.ac.t.fits(n):
		s.n = n
		s.values(n)
	default:
		s.start(s.topology(n), n)
	}
}

// topology is where the branches of a network of the same nodes stand: what
// was analysed first, or that with room for the branches it lacks.
func (s *Solver) topology(n *Network) *topology {
	if s.first.fits(n) {
		return s.first
	}
	t, missing := lay(s.first.p, n, s.first)
	if len(missing) > 0 {
		t, _ = lay(s.first.p.with(missing), n, s.first)
	}
	return t
}

// start begins anew on a topology, with the values of n.
func (s *Solver) start(t *topology, n *Network) {
	s.n = n
	s.ac.start(t, invertPhasor)
	s.dc.start(t, invertReal)
	s.values(n)
}

// values takes those of n. What was asked of the network before may be asked no
// more.
func (s *Solver) values(n *Network) {
	s.ac.flow.asked, s.dc.flow.asked = s.ac.flow.asked[:0], s.dc.flow.asked[:0]
	for i := range n.Branches {
		b := &n.Branches[i]
		s.Set(i, b.Y, b.G)
		if s.ac.e[i] != b.E || s.dc.e[i] != b.EDC {
			s.Source(i, b.E, b.EDC)
		}
	}
}

// Set gives a branch other admittances: y siemens at mains frequency, g
// siemens at dc. Values it has already cost nothing.
func (s *Solver) Set(branch int, y complex128, g float64) {
	s.ac.set(branch, y)
	s.dc.set(branch, g)
}

// Source gives a branch other EMFs in volts, plus at From. Values it has
// already cost nothing.
func (s *Solver) Source(branch int, e complex128, edc float64) {
	s.ac.source(branch, e)
	s.dc.source(branch, edc)
}

// Value is what a branch has now: siemens and volts at mains frequency and at
// dc.
func (s *Solver) Value(branch int) (y, e complex128, g, edc float64) {
	return s.ac.y[branch], s.ac.e[branch], s.dc.y[branch], s.dc.e[branch]
}

// Solve finds the volts of all nodes. What nothing changed in since the last
// call, ac or dc, is left as it is; where only an EMF changed, nothing is
// eliminated again.
func (s *Solver) Solve() {
	s.ac.solve()
	s.dc.solve()
}

// AC is the phasor of a node against earth, volts rms.
func (s *Solver) AC(n Node) complex128 { return s.ac.volts(n) }

// DC is the dc voltage of a node against earth.
func (s *Solver) DC(n Node) float64 { return s.dc.volts(n) }

// Volts is the ac voltage between two nodes, volts rms.
func (s *Solver) Volts(a, b Node) float64 { return Magnitude(s.AC(a) - s.AC(b)) }

// VoltsDC is the dc voltage of a against b.
func (s *Solver) VoltsDC(a, b Node) float64 { return s.DC(a) - s.DC(b) }

// Amps is the phasor of the current in a branch, amperes rms, From to To.
func (s *Solver) Amps(branch int) complex128 { return s.ac.amps(branch) }

// AmpsDC is the dc current in a branch, amperes, From to To.
func (s *Solver) AmpsDC(branch int) float64 { return s.dc.amps(branch) }

// Magnitude is |z| of a voltage or a current, far within what can be squared.
func Magnitude(z complex128) float64 { return math.Sqrt(real(z)*real(z) + imag(z)*imag(z)) }
