package measurements

import "math"

// Quantity names what a check measures, in the words used in the trees.
type Quantity string

// The quantities a check can read.
const (
	ACVolts    Quantity = "ac volts"   // V r.m.s.
	DCVolts    Quantity = "dc volts"   // V, signed by the red lead
	Ohms       Quantity = "ohms"       // Ω on a multimeter
	Continuity Quantity = "continuity" // Ω on a continuity function
	Insulation Quantity = "insulation" // Ω at a test voltage; a bare number is MΩ, as the tester shows it
	Amps       Quantity = "amps"       // A through a clamp
	Leakage    Quantity = "leakage"    // A through a milliamp clamp; a bare number is mA, as the clamp shows it
	Celsius    Quantity = "celsius"    // °C
)

// Quantities lists every quantity in a fixed order.
func Quantities() []Quantity {
	return []Quantity{ACVolts, DCVolts, Ohms, Continuity, Insulation, Amps, Leakage, Celsius}
}

// smallest is the least value but zero that any meter here shows, in SI units:
// a nanovolt, nanoampere or nano-ohm is beyond every portable instrument.
const smallest = 1e-9

// traits is what parsing and writing need to know of a quantity.
type traits struct {
	unit    string   // SI unit
	domain  Interval // what any such meter can show; +Inf is OL
	most    float64  // largest finite number such a meter shows, SI
	bareExp int      // power of ten a number without a unit is taken in
	kind    string   // "ac" or "dc" where the words would contradict the check
	open    bool     // OL means an open circuit and is a reading
	expect  string   // what to type, ending an error line
}

// traits gives the facts of a quantity; ok is false for a word that is none.
func (q Quantity) traits() (t traits, ok bool) {
	switch q {
	case ACVolts:
		return traits{"V", Interval{0, 1000}, 1000, 0, "ac", false, "volts ac as the meter shows them, like 231.4, 12 mV, <1 or 190-240 moving"}, true
	case DCVolts:
		return traits{"V", Interval{-1000, 1000}, 1000, 0, "dc", false, "volts dc as the meter shows them, like 12.1, -0.3, 12 mV or <1"}, true
	case Ohms:
		return traits{"Ω", Interval{0, math.Inf(1)}, 1e9, 0, "", true, "ohms as the meter shows them, like 0.52, 2k2, 4.7 kΩ, >20M or OL"}, true
	case Continuity:
		return traits{"Ω", Interval{0, math.Inf(1)}, 1e6, 0, "", true, "the ohms shown, not the beep, like 0.52, 12 or OL"}, true
	case Insulation:
		return traits{"Ω", Interval{0, math.Inf(1)}, 1e12, 6, "", true, "megohms as the tester shows them, like 1.2, 500k, >20M or OL"}, true
	case Amps:
		return traits{"A", Interval{0, 1000}, 1000, 0, "", false, "amps as the clamp shows them, like 12.4, 46 mA or <0.1"}, true
	case Leakage:
		return traits{"A", Interval{0, 60}, 60, -3, "", false, "milliamps as the clamp shows them, like 3.5, 3.5 mA or <1"}, true
	case Celsius:
		// The span of a hand-held type K thermometer (IEC 60584-1), from memory.
		return traits{"°C", Interval{-200, 1372}, 1372, 0, "", false, "degrees Celsius, like 52, 20.5 C or -3"}, true
	}
	return traits{}, false
}

// Known reports whether q is one of [Quantities].
func (q Quantity) Known() bool {
	_, ok := q.traits()
	return ok
}

// Unit is the unit values of q are kept in: V, Ω, A or °C; "" for an unknown word.
func (q Quantity) Unit() string {
	t, _ := q.traits()
	return t.unit
}

// Domain is every value a meter for q can show, in [Quantity.Unit]; an upper end
// of +Inf stands for OL. An unknown quantity has the empty domain {0, 0}.
func (q Quantity) Domain() Interval {
	t, _ := q.traits()
	return t.domain
}

// Wanted says in one phrase what to type for q, for prompts and refusals.
func (q Quantity) Wanted() string {
	t, _ := q.traits()
	return t.expect
}
