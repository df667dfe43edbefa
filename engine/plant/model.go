package plant

import (
	"math"
	"slices"
	"strings"
	"sync"

	"faultwalk/engine/network"
	"faultwalk/trees"
	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// Frequency is that of the mains, in Hz.
const Frequency = 50

const omega = 2 * math.Pi * Frequency

// Model is a plant ready to be simulated. It does not change once compiled, so
// that subjects may be made from it in several goroutines.
type Model struct {
	Plant *trees.Plant

	set       *trees.Set
	net       *network.Network
	solver    *network.Solver // of the healthy plant, for its pattern
	words     formula.Words
	vars      []variable
	varAt     map[string]int
	values    []value
	valueAt   map[string]int
	branches  []branch
	branchAt  map[string]int
	rules     []rule
	slow      []rule
	trips     []trip
	follows   map[string]formula.Value[*Subject]
	electric  map[int]bool // variables that a branch depends on
	supplies  []supply
	faults    []*Fault
	faultAt   map[string]*Fault
	dynamic   []int // branches that depend on the state
	formulas  map[string]compiled
	lock      sync.Mutex
	problems  strict.Problems
	nominal   []float64 // the values, none drawn
	// commissioned is the healthy plant at rest on its first day: where the
	// history of every fault begins.
	commissioned []float64
	nominalOf []admittance
}

// variable is something that changes, with what it is where history begins.
type variable struct {
	name  string
	first float64
	typ   formula.Type
	fixed bool
	at    strict.Text
}

// value is a number of a part, and the fraction by which one differs from the next.
type value struct {
	name      string
	is        float64
	tolerance float64
}

// rule sets a variable from the state.
type rule struct {
	set int
	to  func(*Subject) float64
}

// trip is a protection; at an overload of 1 it sets its variable.
type trip struct {
	name     string
	overload func(*Subject) float64
	set      []int
	to       float64
}

// supply is where mains comes in: the branches whose currents its RCD adds up.
type supply struct {
	of            *trees.Supply
	live, neutral int // branches
	device        int // variable "device D tripped" of its first device; -1 for none
}

// admittance is a branch in siemens, at mains frequency and at dc.
type admittance struct {
	y complex128
	g float64
}

// Compile builds the model of a composed plant. What cannot be simulated is
// refused with file, line and column.
func Compile(set *trees.Set, p *trees.Plant) (*Model, strict.Problems) {
	whole, problems := set.Whole()
	if len(problems) > 0 {
		return nil, problems
	}
	m := &Model{Plant: p, set: whole, net: &network.Network{}, varAt: map[string]int{}, valueAt: map[string]int{},
		branchAt: map[string]int{}, follows: map[string]formula.Value[*Subject]{}, electric: map[int]bool{},
		faultAt: map[string]*Fault{}, formulas: map[string]compiled{}}
	b := &builder{Model: m}
	b.build()
	if len(m.problems) > 0 {
		return nil, m.problems.Sorted()
	}
	m.prepare()
	if len(m.problems) > 0 {
		return nil, m.problems.Sorted()
	}
	return m, nil
}

// prepare makes what every subject shares: the pattern of the network and the
// admittances of the branches that no state changes.
func (m *Model) prepare() {
	m.nominal = m.nominalValues()
	probe := &Subject{m: m, v: m.firsts(), values: m.nominal}
	probe.words()
	m.nominalOf = make([]admittance, len(m.branches))
	for i := range m.branches {
		br := &m.branches[i]
		if br.moves {
			m.dynamic = append(m.dynamic, i)
			continue
		}
		m.nominalOf[i] = br.admittance(probe, 1)
		m.net.Branches[i].Y, m.net.Branches[i].G = m.nominalOf[i].y, m.nominalOf[i].g
	}
	m.solver = network.NewSolver(m.net)
	m.commission()
}

// commission settles the healthy plant. One that does not come to rest, or
// trips, is refused.
func (m *Model) commission() {
	s := m.New(nil, nil)
	if len(s.visits) > 0 {
		m.problem(m.set.Plants[m.Plant.ID].Pos, "the plant %q never comes to rest although it is healthy: %s go on changing; expected rules with hysteresis", m.Plant.ID, strings.Join(s.moving(), ", "))
	}
	copy(s.v, m.firsts())
	s.release()
	s.settle()
	m.commissioned = slices.Clone(s.v)
}

func (m *Model) firsts() []float64 {
	v := make([]float64, len(m.vars))
	for i := range m.vars {
		v[i] = m.vars[i].first
	}
	return v
}

func (m *Model) nominalValues() []float64 {
	v := make([]float64, len(m.values))
	for i := range m.values {
		v[i] = m.values[i].is
	}
	return v
}

// problem records what is wrong at a place.
func (m *Model) problem(pos strict.Pos, format string, args ...any) {
	m.problems = append(m.problems, problemAt(pos, format, args...))
}
