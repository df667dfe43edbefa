package plant

import (
	"faultwalk/engine/network"
)

// reader is a solved network.
type reader interface {
	Volts(a, b network.Node) float64
	VoltsDC(a, b network.Node) float64
	Amps(branch int) complex128
	AmpsDC(branch int) float64
}

func (s *Subject) words() { s.meter = nothing{} }

// nothing reads nought everywhere: for formulas that need no network.
type nothing struct{}

func (nothing) Volts(_, _ network.Node) float64 { return 0 }

func (nothing) VoltsDC(_, _ network.Node) float64 { return 0 }

func (nothing) Amps(int) complex128 { return 0 }

func (nothing) AmpsDC(int) float64 { return 0 }

func (s *Subject) amps(branch int) float64 { return network.Magnitude(s.read().Amps(branch)) }

// residual is what live and neutral of the supplies do not carry back, in A.
func (s *Subject) residual(of []supply) float64 {
	var sum complex128
	r := s.read()
	for _, n := range of {
		sum += r.Amps(n.live) + r.Amps(n.neutral)
	}
	return network.Magnitude(sum)
}

// read is the solved network of the variables as they are.
func (s *Subject) read() reader {
	s.fresh()
	return s.meter
}

// fresh solves the network if the variables have changed since.
func (s *Subject) fresh() {
	if s.stale {
		s.solve()
	}
}

// solve brings the network to the variables as they are: the branches that follow
// those which changed since it was solved last, or all where more than that did.
func (s *Subject) solve() {
	s.stale = false
	if s.anew || s.m.loose {
		s.anew = false
		for _, i := range s.m.dynamic {
			s.branch(i)
		}
	} else {
		for _, v := range s.m.moving {
			if s.v[v] != s.solved[v] {
				for _, i := range s.m.follow[v] {
					s.branch(i)
				}
			}
		}
	}
	s.solved = append(s.solved[:0], s.v...)
	s.solver.Solve()
}

// branch brings a branch that depends on the state to the variables as they are.
func (s *Subject) branch(i int) {
	if s.isOpened(i) {
		return
	}
	b := &s.m.branches[i]
	a, forced := s.forced[i]
	switch {
	case !forced:
		a = b.admittance(s, s.factorOf(i))
	case b.closed != nil && b.closed(s) == 0: // a burnt contact still opens, and a burnt pole still parts
		a = admittance{}
	}
	s.solver.Set(i, a.y, a.g)
	if b.volts != nil || b.dcVolts != nil {
		ac, dc := b.emf(s)
		s.solver.Source(i, ac, dc)
	}
}

func (s *Subject) factorOf(i int) float64 {
	if s.factor == nil {
		return 1
	}
	return s.factor[i]
}

func (s *Subject) isOpened(i int) bool {
	for _, o := range s.opened {
		if o == i {
			return true
		}
	}
	return false
}

// part opens branches for a reading, and closes those of the reading before: the
// joints of terminals and of cores' ends, which no state moves.
func (s *Subject) part(open []int) {
	was := s.opened
	s.opened, s.stale = open, true
	for _, i := range was {
		if !s.isOpened(i) {
			b := s.net.Branches[i]
			if a, ok := s.forced[i]; ok {
				b.Y, b.G = a.y, a.g
			}
			s.solver.Set(i, b.Y, b.G)
		}
	}
	for _, i := range open {
		s.solver.Set(i, 0, 0)
	}
}
