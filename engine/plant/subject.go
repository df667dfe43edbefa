package plant

import (
	"math/cmplx"

	"faultwalk/engine/network"
)

// Subject is one plant with one fault, or healthy. It is for one goroutine.
type Subject struct {
	m      *Model
	fault  *Fault
	v      []float64 // the variables now
	values []float64
	factor []float64 // of each branch's impedance; nil means 1
	forced map[int]admittance
	locked []held
	starts []held

	net    *network.Network
	solver *network.Solver
	meter  reader // what the rules read: the solver, or the network with a meter on it
	opened []int  // branches that are parted for a reading

	base    []float64 // at rest, after weeks of use
	next    []float64
	visits  [][]float64 // the states an unsteady plant goes through
	trail   [][]float64
	settled map[string]*state
	at      *state
	acts    string // done to the plant for good
}

type held struct {
	at int
	to float64
}

// reader is a solved network.
type reader interface {
	Volts(a, b network.Node) float64
	VoltsDC(a, b network.Node) float64
	Amps(branch int) complex128
	AmpsDC(branch int) float64
}

// state is a plant that has come to rest, or goes round.
type state struct {
	key    string
	v      []float64
	visits [][]float64
	opened []int
}

// New makes a subject: a fault in it, or nil; parts and supply as drawn, or nominal.
func (m *Model) New(f *Fault, d *Draw) *Subject {
	s := &Subject{m: m, v: m.firsts(), next: make([]float64, len(m.vars)), settled: map[string]*state{}, forced: map[int]admittance{},
		net: &network.Network{Names: m.net.Names}, solver: m.solver.Share(m.net)}
	s.Be(f, d)
	return s
}

// Be makes the subject another one in the room it has: New without its cost.
func (s *Subject) Be(f *Fault, d *Draw) {
	m := s.m
	if m.commissioned != nil {
		copy(s.v, m.commissioned)
	} else {
		copy(s.v, m.firsts())
	}
	clear(s.settled)
	clear(s.forced)
	s.fault, s.locked, s.starts, s.opened, s.visits, s.at, s.acts = f, s.locked[:0], s.starts[:0], nil, nil, nil, ""
	s.net.Branches = append(s.net.Branches[:0], m.net.Branches...)
	s.values, s.factor = m.nominal, nil
	if d != nil {
		d.apply(s, s.net)
	}
	if f != nil {
		for _, c := range f.changes {
			c(s, s.net)
		}
	}
	s.solver.Take(s.net)
	s.meter = s.solver
	s.history()
}

func (s *Subject) words() { s.meter = nothing{} }

// nothing reads nought everywhere: for formulas that need no network.
type nothing struct{}

func (nothing) Volts(_, _ network.Node) float64   { return 0 }
func (nothing) VoltsDC(_, _ network.Node) float64 { return 0 }
func (nothing) Amps(int) complex128               { return 0 }
func (nothing) AmpsDC(int) float64                { return 0 }

func (s *Subject) amps(branch int) float64 { return cmplx.Abs(s.meter.Amps(branch)) }

// residual is what live and neutral of the supplies do not carry back, in A.
func (s *Subject) residual(of []supply) float64 {
	var sum complex128
	for _, n := range of {
		sum += s.meter.Amps(n.live) + s.meter.Amps(n.neutral)
	}
	return cmplx.Abs(sum)
}

// solve brings the network to the variables as they are.
func (s *Subject) solve() {
	for _, i := range s.m.dynamic {
		if s.isOpened(i) {
			continue
		}
		b := &s.m.branches[i]
		if a, ok := s.forced[i]; ok {
			// A burnt contact still opens, and a burnt pole still parts.
			if b.closed != nil && b.closed(s) == 0 {
				a = admittance{}
			}
			s.solver.Set(i, a.y, a.g)
		} else {
			a := b.admittance(s, s.factorOf(i))
			s.solver.Set(i, a.y, a.g)
		}
		if b.volts != nil || b.dcVolts != nil {
			ac, dc := b.emf(s)
			s.solver.Source(i, ac, dc)
		}
	}
	s.solver.Solve()
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

// part opens branches for a reading, and closes those of the reading before.
func (s *Subject) part(open []int) {
	was := s.opened
	s.opened = open
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
