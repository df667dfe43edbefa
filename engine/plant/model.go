package plant

import (
	"math"
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

	set      *trees.Set
	net      *network.Network
	solver   *network.Solver // of the healthy plant, for its pattern
	words    formula.Words
	none     float64 // the word "none"
	vars     []variable
	varAt    map[string]int
	values   []value
	valueAt  map[string]int
	branches []branch
	branchAt map[string]int
	rules    []rule
	slow     []rule
	trips    []trip
	follows  map[string]formula.Value[*Subject]
	electric map[int]bool // variables that a branch depends on
	moving   []int        // the same, ascending
	loose    bool         // a branch depends on the network itself
	watchful bool         // an overload depends on variables, not on the network alone
	readers  [][]int      // of each variable: the rules that read or set it
	metering []int        // the rules that read the network
	supplies []supply
	faults   []*Fault
	faultAt  map[string]*Fault
	dynamic  []int   // branches that depend on the state
	follow   [][]int // of each variable: the branches that depend on it
	formulas map[string]compiled
	signs    map[*trees.Sign]*noticed
	lock     sync.Mutex
	problems strict.Problems
	nominal  []float64 // the values, none drawn
	// commissioned is the healthy plant at rest on its first day: where the
	// history of every fault begins.
	commissioned []float64
	nominalOf    []admittance
	inside       map[string][]spot // the points of each enclosure
	cases        []spot            // the points of role earth
}

// variable is something that changes, with what it is where history begins.
type variable struct {
	name  string
	first float64
	holds trees.Holds
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
	set     int
	to      func(*Subject) float64
	reads   []int // variables
	network bool  // it reads the network too
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
	device        int // variable "device D tripped" of its first device
}

// problem records what is wrong at a place.
func (m *Model) problem(pos strict.Pos, format string, args ...any) {
	m.problems = append(m.problems, problemAt(pos, format, args...))
}
