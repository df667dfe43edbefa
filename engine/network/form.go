package network

import "math"

// open is the resistance in ohms that stands for none at all in a netlist
// where SPICE wants a number.
const open = 1e18

// form is how SPICE's elements make up a branch.
type form int

const (
	resistor  form = iota // a resistor
	capacitor             // a capacitor
	parallel              // a capacitor beside a resistor
	series                // a capacitor behind a resistor
	coil                  // an inductor behind a resistor
	blocked               // the same and a capacitor, as it carries no dc
)

// values are those of a form's elements.
type values struct {
	ohmsDC, ohmsAC, farads, henries float64
}

// formOf chooses the form that gives y at the mains frequency and g at dc.
func formOf(y complex128, g float64) form {
	switch {
	case imag(y) == 0:
		return resistor
	case imag(y) < 0 && g > 0:
		return coil
	case imag(y) < 0:
		return blocked
	case g == 0 && real(y) == 0:
		return capacitor
	case g == 0 && real(y) > 1e-6*imag(y):
		return series
	default:
		return parallel
	}
}

// values are found for y siemens at frequency, in hertz, and g siemens at dc.
// An open branch keeps its form: its resistor is open.
func (f form) values(y complex128, g, frequency float64) values {
	omega := 2 * math.Pi * frequency
	v := values{ohmsDC: ohmsOf(g), ohmsAC: ohmsOf(real(y))}
	if f == resistor {
		return v
	}
	if y == 0 {
		v.farads, v.henries = 1e-30, 1
		return v
	}
	z := 1 / y
	switch f {
	case parallel, capacitor:
		v.farads = imag(y) / omega
		return v
	case series:
		v.ohmsDC, v.farads = real(z), -1/(omega*imag(z))
	case coil:
		v.henries = imag(z) / omega
	case blocked:
		v.ohmsDC, v.farads, v.henries = real(z), 1/(omega*imag(z)), 2*imag(z)/omega
	}
	v.ohmsAC = max(real(z), 1e-9*math.Abs(imag(z)))
	v.ohmsDC = max(v.ohmsDC, 1e-9*math.Abs(imag(z)))
	return v
}

func ohmsOf(siemens float64) float64 {
	if siemens == 0 {
		return open
	}
	return 1 / siemens
}
