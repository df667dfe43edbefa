package network

import (
	"fmt"
	"io"
	"slices"
)

// NetlistLoop writes many networks as one SPICE deck: the first as elements,
// the others as alterations of it, each followed by the dc operating point and
// one ac analysis at frequency, in hertz. One ngspice process then solves them
// all, which is what the solver's speed is measured against.
//
// The networks must have the same nodes; branches are told apart by name and
// ends. A branch that a network lacks is open there. With printed, every node
// is printed after each analysis.
func NetlistLoop(w io.Writer, title string, list []*Network, frequency float64, printed bool) error {
	if len(list) == 0 {
		return fmt.Errorf("netlist %q: no network, expected at least one", title)
	}
	for _, n := range list {
		if len(n.Names) != len(list[0].Names) {
			return fmt.Errorf("netlist %q: a network of %d nodes, expected %d as the first has", title, len(n.Names), len(list[0].Names))
		}
	}
	l := &loop{deck: newDeck(w, title, list[0].Names, frequency), of: map[ends]int{}, printed: printed}
	list = slices.Clone(list)
	for i, n := range list {
		list[i] = held(n)
		l.gather(list[i])
	}
	l.write(list)
	return l.end()
}

// ends tell a branch from all others: one that takes another form of elements
// is another, and the first is open; nth tells branches of one name and place
// apart.
type ends struct {
	name     string
	from, to Node
	form     form
	nth      int
}

// loop is a deck whose elements are altered from network to network.
type loop struct {
	*deck
	printed  bool
	of       map[ends]int
	branches []Branch // every branch of every network, as it now stands
	forms    []form
	live     []bool // it has an EMF in one of them
	apart    []bool // its resistor has a value of its own for ac
}

// places gives, for each branch of a network, its number in the loop, -1 if it
// is open or joins nothing; new ones are added.
func (l *loop) places(n *Network) []int {
	seen := map[ends]int{}
	out := make([]int, len(n.Branches))
	for i, b := range n.Branches {
		if b.From == b.To || b.Y == 0 && b.G == 0 {
			out[i] = -1
			continue
		}
		k := ends{b.Name, b.From, b.To, formOf(b.Y, b.G), 0}
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
	l.branches = append(l.branches, Branch{Name: k.name, From: k.from, To: k.to})
	l.forms = append(l.forms, k.form)
	l.live = append(l.live, false)
	l.apart = append(l.apart, false)
}

// gather takes in the branches that earlier networks have not.
func (l *loop) gather(n *Network) {
	for i, at := range l.places(n) {
		if b := n.Branches[i]; at >= 0 && (b.E != 0 || b.EDC != 0) {
			l.live[at] = true
		}
	}
}

// write puts the elements of the first network, then the alterations.
func (l *loop) write(list []*Network) {
	l.become(list[0], func(i int) {})
	for i, b := range l.branches {
		l.elementsOf(i, b)
	}
	l.control()
	for i, n := range list {
		if i > 0 {
			l.become(n, l.alter)
		}
		l.analyses()
	}
}

// elementsOf writes a branch, with an EMF if it ever has one.
func (l *loop) elementsOf(i int, b Branch) {
	v := l.forms[i].values(b.Y, b.G, l.frequency)
	l.apart[i] = v.ohmsAC != v.ohmsDC
	l.elements(i, &b, l.forms[i], v, l.live[i])
}

// become makes the branches those of n and calls changed for each that was
// another before.
func (l *loop) become(n *Network, changed func(int)) {
	next := make([]Branch, len(l.branches))
	for i, b := range l.branches {
		next[i] = Branch{Name: b.Name, From: b.From, To: b.To}
	}
	for i, at := range l.places(n) {
		if at >= 0 {
			next[at] = n.Branches[i]
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
		l.line("alter v%d dc = %g", i, b.EDC)
		l.line("alter v%d acmag = %g", i, amplitude(b.E))
		l.line("alter v%d acphase = %g", i, degrees(b.E))
	}
	v := f.values(b.Y, b.G, l.frequency)
	if f != capacitor {
		l.line("alter r%d = %g", i, v.ohmsDC)
		l.apart[i] = l.apart[i] || v.ohmsAC != v.ohmsDC
	}
	if f != capacitor && l.apart[i] {
		l.line("alter @r%d[ac] = %g", i, v.ohmsAC)
	}
	if f == capacitor || f == parallel || f == series || f == blocked {
		l.line("alter c%d = %g", i, v.farads)
	}
	if f == coil || f == blocked {
		l.line("alter l%d = %g", i, v.henries)
	}
}

// analyses are the two that every network gets.
func (l *loop) analyses() {
	l.line("op")
	l.print()
	l.line("ac lin 1 %g %g", l.frequency, l.frequency)
	l.print()
	l.line("destroy all")
}

// print has every node printed, if that is wanted: all at once, which takes
// ngspice a thirtieth of the time that one command for each node does.
func (l *loop) print() {
	if l.printed {
		l.line("print all")
	}
}
