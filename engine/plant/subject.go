package plant

import "faultwalk/engine/network"

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
	meter  reader    // what the rules read: the solver, or the network with a meter on it
	opened []int     // branches that are parted for a reading
	worked []string  // switches that a hand works for a reading
	stale  bool      // the network is not solved for the variables as they are
	anew   bool      // what branches are has to be worked out for all of them
	solved []float64 // the variables for which the network was solved last
	moved  bool      // the rules and the protection have not seen the network as it is
	rest   rest      // where the plant is known to have come to rest

	base    []float64 // after weeks of use
	resting bool      // that is at rest
	quiet   []float64 // room for what it came to rest at
	next    []float64
	due     []bool      // rules, see due.go
	visits  [][]float64 // the states an unsteady plant goes through
	trail   [][]float64
	settled map[string]*state
	at      *state
	spare   *Subject    // the plant with a meter on it
	room    [][]float64 // variables of states no longer wanted
	broken  string      // what a healthy plant did in its history and never should
}

type held struct {
	at int
	to float64
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
	s.forget()
	clear(s.forced)
	s.fault, s.locked, s.starts, s.opened, s.visits, s.at, s.broken = f, s.locked[:0], s.starts[:0], nil, nil, nil, ""
	s.worked, s.anew, s.rest = nil, true, rest{}
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
	if d == nil {
		s.rest = rest{v: m.commissioned, rewired: f != nil && f.Electrical}
	}
	s.solver.Take(s.net)
	s.meter = s.solver
	s.history()
}
