// Package spice writes what SPICE reads: the elements of branches, and the commands
// around them. Start with New.
package spice

import "math"

// Open is the resistance in ohms that stands for none at all in a netlist
// where SPICE wants a number.
const Open = 1e18

// Form is how SPICE's elements make up a branch.
type Form int

// The forms.
const (
	Resistor  Form = iota // a resistor
	Capacitor             // a capacitor
	Parallel              // a capacitor beside a resistor
	Series                // a capacitor behind a resistor
	Coil                  // an inductor behind a resistor
	Blocked               // the same and a capacitor, as it carries no dc
)

// Values are those of a form's elements, in Ω, F and H.
type Values struct {
	OhmsDC, OhmsAC, Farads, Henries float64
}

// FormOf chooses the form that gives y at the mains frequency and g at dc.
func FormOf(y complex128, g float64) Form {
	switch {
	case imag(y) == 0:
		return Resistor
	case imag(y) < 0 && g > 0:
		return Coil
	case imag(y) < 0:
		return Blocked
	case g == 0 && real(y) == 0:
		return Capacitor
	case g == 0 && real(y) > 1e-6*imag(y):
		return Series
	default:
		return Parallel
	}
}

// Values are found for y siemens at frequency, in hertz, and g siemens at dc.
// An open branch keeps its form: its resistor is Open.
func (f Form) Values(y complex128, g, frequency float64) Values {
	omega := 2 * math.Pi * frequency
	v := Values{OhmsDC: ohmsOf(g), OhmsAC: ohmsOf(real(y))}
	if f == Resistor {
		return v
	}
	if y == 0 {
		v.Farads, v.Henries = 1e-30, 1
		return v
	}
	z := 1 / y
	switch f {
	case Parallel, Capacitor:
		v.Farads = imag(y) / omega
		return v
	case Series:
		v.OhmsDC, v.Farads = real(z), -1/(omega*imag(z))
	case Coil:
		v.Henries = imag(z) / omega
	case Blocked:
		v.OhmsDC, v.Farads, v.Henries = real(z), 1/(omega*imag(z)), 2*imag(z)/omega
	}
	v.OhmsAC = max(real(z), 1e-9*math.Abs(imag(z)))
	v.OhmsDC = max(v.OhmsDC, 1e-9*math.Abs(imag(z)))
	return v
}

func ohmsOf(siemens float64) float64 {
	if siemens == 0 {
		return Open
	}
	return 1 / siemens
}
