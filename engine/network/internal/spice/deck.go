package spice

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strings"
)

// Deck is a netlist on its way out.
type Deck struct {
	out       *bufio.Writer
	names     []string
	Frequency float64 // Hz
}

// New begins a deck: its title, and what stands for which node.
func New(w io.Writer, title string, names []string, frequency float64) *Deck {
	d := &Deck{out: bufio.NewWriter(w), names: names, Frequency: frequency}
	d.Line("* %s", oneLine(title))
	for i, s := range names {
		d.Line("* %s = %s", d.node(i), oneLine(s))
	}
	return d
}

// Line writes a line.
func (d *Deck) Line(format string, args ...any) {
	fmt.Fprintf(d.out, format+"\n", args...) // its error stays with out and comes with Flush
}

// node is what SPICE calls a node: letters and digits only, no word of its own.
// Earth is any below 0.
func (d *Deck) node(n int) string {
	if n < 0 {
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

// Branch is what stands between two nodes, below 0 for earth: y siemens at mains
// frequency and g at dc in series with EMFs in volts, plus at From.
type Branch struct {
	Name     string
	From, To int
	Y        complex128
	G        float64
	E        complex128
	EDC      float64
}

// Branch writes the elements of a branch; an open one without any stays out.
func (d *Deck) Branch(i int, b Branch) {
	if b.From == b.To || b.Y == 0 && b.G == 0 {
		return
	}
	f := FormOf(b.Y, b.G)
	d.Elements(i, b, f, f.Values(b.Y, b.G, d.Frequency), b.E != 0 || b.EDC != 0)
}

// Elements writes an EMF, if the branch is live, and what is in series with it.
func (d *Deck) Elements(i int, b Branch, f Form, v Values, live bool) {
	d.Line("* %s", oneLine(b.Name))
	from, to := d.node(b.From), d.node(b.To)
	if live {
		inner := fmt.Sprintf("e%d", i)
		d.Line("V%d %s %s DC %g AC %g %g", i, from, inner, b.EDC, Amplitude(b.E), Degrees(b.E))
		from = inner
	}
	x, y := fmt.Sprintf("x%d", i), fmt.Sprintf("y%d", i)
	switch f {
	case Resistor:
		d.resistor(i, from, to, v)
	case Capacitor:
		d.Line("C%d %s %s %g", i, from, to, v.Farads)
	case Parallel:
		d.resistor(i, from, to, v)
		d.Line("C%d %s %s %g", i, from, to, v.Farads)
	case Series:
		d.resistor(i, from, x, v)
		d.Line("C%d %s %s %g", i, x, to, v.Farads)
	case Coil:
		d.resistor(i, from, x, v)
		d.Line("L%d %s %s %g", i, x, to, v.Henries)
	case Blocked:
		d.resistor(i, from, x, v)
		d.Line("C%d %s %s %g", i, x, y, v.Farads)
		d.Line("L%d %s %s %g", i, y, to, v.Henries)
	}
}

func (d *Deck) resistor(i int, from, to string, v Values) {
	if v.OhmsDC == v.OhmsAC {
		d.Line("R%d %s %s %g", i, from, to, v.OhmsDC)
		return
	}
	d.Line("R%d %s %s %g ac=%g", i, from, to, v.OhmsDC, v.OhmsAC)
}

// Amplitude is that of an EMF, as SPICE has it.
func Amplitude(e complex128) float64 { return math.Hypot(real(e), imag(e)) }

// Degrees is its phase.
func Degrees(e complex128) float64 { return math.Atan2(imag(e), real(e)) * 180 / math.Pi }

// Control begins the commands that run the deck.
func (d *Deck) Control() {
	d.Line(".control")
	d.Line("set numdgt=16")
}

// PrintAll prints every node of the last analysis.
func (d *Deck) PrintAll() {
	for i := range d.names {
		d.Line("print v(%s)", d.node(i))
	}
}

// End ends the deck; the error is that of what it is written to.
func (d *Deck) End() error {
	d.Line("quit\n.endc\n.end")
	return d.out.Flush()
}
