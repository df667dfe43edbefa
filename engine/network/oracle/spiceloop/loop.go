// Package spiceloop has ngspice solve many networks in one process, for tests and
// for .ci/against-ngspice: what the solver is held against, and its speed measured
// against. Start with Write.
package spiceloop

import (
	"fmt"
	"io"

	"faultwalk/engine/network"
	"faultwalk/engine/network/internal/spice"
)

// Write writes many networks as one SPICE deck: the first as elements,
// the others as alterations of it, each followed by the dc operating point and
// one ac analysis at frequency, in hertz. One ngspice process then solves them
// all, which is what the solver's speed is measured against.
//
// The networks must have the same nodes; branches are told apart by name and
// ends. A branch that a network lacks is open there. With printed, every node
// is printed after each analysis.
func Write(w io.Writer, title string, list []*network.Network, frequency float64, printed bool) error {
	if len(list) == 0 {
		return fmt.Errorf("netlist %q: no network, expected at least one", title)
	}
	for _, n := range list {
		if len(n.Names) != len(list[0].Names) {
			return fmt.Errorf("netlist %q: a network of %d nodes, expected %d as the first has", title, len(n.Names), len(list[0].Names))
		}
	}
	l := &loop{Deck: spice.New(w, title, list[0].Names, frequency), of: map[ends]int{}, printed: printed}
	var held [][]spice.Branch
	for _, n := range list {
		held = append(held, branches(n.Held()))
		l.gather(held[len(held)-1])
	}
	l.write(held)
	return l.End()
}

func branches(n *network.Network) (out []spice.Branch) {
	for _, b := range n.Branches {
		out = append(out, spice.Branch{Name: b.Name, From: int(b.From), To: int(b.To), Y: b.Y, G: b.G, E: b.E, EDC: b.EDC})
	}
	return out
}

// ends tell a branch from all others: one that takes another form of elements
// is another, and the first is open; nth tells branches of one name and place
// apart.
type ends struct {
	name     string
	from, to int
	form     spice.Form
	nth      int
}

// loop is a deck whose elements are altered from network to network.
type loop struct {
	*spice.Deck
	printed  bool
	of       map[ends]int
	branches []spice.Branch // every branch of every network, as it now stands
	forms    []spice.Form
	live     []bool // it has an EMF in one of them
	apart    []bool // its resistor has a value of its own for ac
}

// places gives, for each branch of a network, its number in the loop, -1 if it
// is open or joins nothing; new ones are added.
func (l *loop) places(n []spice.Branch) []int {
	seen := map[ends]int{}
	out := make([]int, len(n))
	for i, b := range n {
		if b.From == b.To || b.Y == 0 && b.G == 0 {
			out[i] = -1
			continue
		}
		k := ends{b.Name, b.From, b.To, spice.FormOf(b.Y, b.G), 0}
		seen[k]++
		k.nth = seen[k]
		if _, ok := l.of[k]; !ok {
			l.add(k)
		}
		out[i] = l.of[k]
	}
	return out
}

func (l *loop) add(k ends) {
	l.of[k] = len(l.branches)
	l.branches = append(l.branches, spice.Branch{Name: k.name, From: k.from, To: k.to})
	l.forms = append(l.forms, k.form)
	l.live = append(l.live, false)
	l.apart = append(l.apart, false)
}

// gather takes in the branches that earlier networks have not.
func (l *loop) gather(n []spice.Branch) {
	for i, at := range l.places(n) {
		if b := n[i]; at >= 0 && (b.E != 0 || b.EDC != 0) {
			l.live[at] = true
		}
	}
}

// write puts the elements of the first network, then the alterations.
func (l *loop) write(list [][]spice.Branch) {
	l.become(list[0], func(i int) {})
	for i, b := range l.branches {
		l.elementsOf(i, b)
	}
	l.Control()
	for i, n := range list {
		if i > 0 {
			l.become(n, l.alter)
		}
		l.analyses()
	}
}

// elementsOf writes a branch, with an EMF if it ever has one.
func (l *loop) elementsOf(i int, b spice.Branch) {
	v := l.forms[i].Values(b.Y, b.G, l.Frequency)
	l.apart[i] = v.OhmsAC != v.OhmsDC
	l.Elements(i, b, l.forms[i], v, l.live[i])
}

// become makes the branches those of n and calls changed for each that was
// another before.
func (l *loop) become(n []spice.Branch, changed func(int)) {
	next := make([]spice.Branch, len(l.branches))
	for i, b := range l.branches {
		next[i] = spice.Branch{Name: b.Name, From: b.From, To: b.To}
	}
	for i, at := range l.places(n) {
		if at >= 0 {
			next[at] = n[i]
		}
	}
	for i := range next {
		if was := l.branches[i]; was != next[i] {
			l.branches[i] = next[i]
			changed(i)
		}
	}
}

// alter writes the changes of one branch's elements.
func (l *loop) alter(i int) {
	b, f := l.branches[i], l.forms[i]
	if l.live[i] {
		l.Line("alter v%d dc = %g", i, b.EDC)
		l.Line("alter v%d acmag = %g", i, spice.Amplitude(b.E))
		l.Line("alter v%d acphase = %g", i, spice.Degrees(b.E))
	}
	v := f.Values(b.Y, b.G, l.Frequency)
	if f != spice.Capacitor {
		l.Line("alter r%d = %g", i, v.OhmsDC)
		l.apart[i] = l.apart[i] || v.OhmsAC != v.OhmsDC
	}
	if f != spice.Capacitor && l.apart[i] {
		l.Line("alter @r%d[ac] = %g", i, v.OhmsAC)
	}
	if f == spice.Capacitor || f == spice.Parallel || f == spice.Series || f == spice.Blocked {
		l.Line("alter c%d = %g", i, v.Farads)
	}
	if f == spice.Coil || f == spice.Blocked {
		l.Line("alter l%d = %g", i, v.Henries)
	}
}

// analyses are the two that every network gets.
func (l *loop) analyses() {
	l.Line("op")
	l.print()
	l.Line("ac lin 1 %g %g", l.Frequency, l.Frequency)
	l.print()
	l.Line("destroy all")
}

// print has every node printed, if that is wanted: all at once, which takes
// ngspice a thirtieth of the time that one command for each node does.
func (l *loop) print() {
	if l.printed {
		l.Line("print all")
	}
}
