package network

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strings"
)

// Netlist writes the network for SPICE: a deck that ngspice runs unchanged in
// batch (ngspice -b), which does the dc operating point and one ac analysis at
// frequency, in hertz, and prints every node after each. Admittances must be
// those at that frequency.
//
// Each node is called n, its number and what is left of its name; comments map
// them back and name the branches. A resistor whose value at dc differs has its
// own value under ac=. An island is held at 0 V by a resistor to earth, as the
// solver pins it.
func Netlist(w io.Writer, title string, n *Network, frequency float64) error {
	d := newDeck(w, title, n.Names, frequency)
	for i, b := range held(n).Branches {
		d.branch(i, &b)
	}
	d.control()
	d.line("op")
	d.printAll()
	d.line("ac lin 1 %g %g", frequency, frequency)
	d.printAll()
	return d.end()
}

// deck is a netlist on its way out.
type deck struct {
	out       *bufio.Writer
	names     []string
	frequency float64
}

func newDeck(w io.Writer, title string, names []string, frequency float64) *deck {
	d := &deck{out: bufio.NewWriter(w), names: names, frequency: frequency}
	d.line("* %s", oneLine(title))
	for i, s := range names {
		d.line("* %s = %s", d.node(Node(i)), oneLine(s))
	}
	return d
}

func (d *deck) line(format string, args ...any) {
	fmt.Fprintf(d.out, format+"\n", args...) // its error stays with out and comes with Flush
}

// node is what SPICE calls a node: letters and digits only, no word of its own.
func (d *deck) node(n Node) string {
	if n == Earth {
		return "0"
	}
	return fmt.Sprintf("n%d_%s", n, strings.Map(spelled, strings.ToLower(d.names[n])))
}

func spelled(r rune) rune {
	if 'a' <= r && r <= 'z' || '0' <= r && r <= '9' {
		return r
	}
	return '_'
}

// oneLine keeps a comment a comment.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// branch writes the elements of a branch; an open one without any stays out.
func (d *deck) branch(i int, b *Branch) {
	if b.From == b.To || b.Y == 0 && b.G == 0 {
		return
	}
	f := formOf(b.Y, b.G)
	d.elements(i, b, f, f.values(b.Y, b.G, d.frequency), b.E != 0 || b.EDC != 0)
}

// elements writes an EMF, if the branch is live, and what is in series with it.
func (d *deck) elements(i int, b *Branch, f form, v values, live bool) {
	d.line("* %s", oneLine(b.Name))
	from, to := d.node(b.From), d.node(b.To)
	if live {
		inner := fmt.Sprintf("e%d", i)
		d.line("V%d %s %s DC %g AC %g %g", i, from, inner, b.EDC, amplitude(b.E), degrees(b.E))
		from = inner
	}
	x, y := fmt.Sprintf("x%d", i), fmt.Sprintf("y%d", i)
	switch f {
	case resistor:
		d.resistor(i, from, to, v)
	case capacitor:
		d.line("C%d %s %s %g", i, from, to, v.farads)
	case parallel:
		d.resistor(i, from, to, v)
		d.line("C%d %s %s %g", i, from, to, v.farads)
	case series:
		d.resistor(i, from, x, v)
		d.line("C%d %s %s %g", i, x, to, v.farads)
	case coil:
		d.resistor(i, from, x, v)
		d.line("L%d %s %s %g", i, x, to, v.henries)
	case blocked:
		d.resistor(i, from, x, v)
		d.line("C%d %s %s %g", i, x, y, v.farads)
		d.line("L%d %s %s %g", i, y, to, v.henries)
	}
}

func (d *deck) resistor(i int, from, to string, v values) {
	if v.ohmsDC == v.ohmsAC {
		d.line("R%d %s %s %g", i, from, to, v.ohmsDC)
		return
	}
	d.line("R%d %s %s %g ac=%g", i, from, to, v.ohmsDC, v.ohmsAC)
}

func amplitude(e complex128) float64 { return math.Hypot(real(e), imag(e)) }
func degrees(e complex128) float64   { return math.Atan2(imag(e), real(e)) * 180 / math.Pi }

// held is a copy of a network with each island, of dc and of ac, held at 0 V
// at the node where the solver pins it, so that no analysis has a singular
// matrix: a branch that nothing flows in.
func held(n *Network) *Network {
	s := NewSolver(n)
	s.Solve()
	out := n.Clone()
	for _, k := range s.ac.factor.pinned() {
		v := Node(s.ac.t.p.node[k])
		out.Add(Branch{Name: n.Name(v) + " floats at ac: held at 0 V", From: v, To: Earth, Y: 1})
	}
	for _, k := range s.dc.factor.pinned() {
		v := Node(s.dc.t.p.node[k])
		out.Add(Branch{Name: n.Name(v) + " floats at dc: held at 0 V", From: v, To: Earth, G: 1})
	}
	return out
}

// control begins the commands that run the deck.
func (d *deck) control() {
	d.line(".control")
	d.line("set numdgt=16")
}

// printAll prints every node of the last analysis.
func (d *deck) printAll() {
	for i := range d.names {
		d.line("print v(%s)", d.node(Node(i)))
	}
}

func (d *deck) end() error {
	d.line("quit\n.endc\n.end")
	return d.out.Flush()
}
