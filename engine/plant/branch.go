package plant

import (
	"math"

	"faultwalk/trees/strict"
)

// branch is how the admittance of a branch of the network follows from the
// state. What is nil is not there; a branch that is not closed is open.
type branch struct {
	name                                                    string
	pos                                                     strict.Pos
	closed, ohms, reactance, farads, dcOhms, volts, dcVolts func(*Subject) float64
	tolerance                                               float64
	moves                                                   bool  // it depends on the state, not on values alone
	reads                                                   []int // the variables it depends on
}

// admittance is what the branch is now, its impedance times the factor.
func (b *branch) admittance(s *Subject, factor float64) admittance {
	if b.closed != nil && b.closed(s) == 0 {
		return admittance{}
	}
	var a admittance
	z := complex(0, 0)
	if b.ohms != nil {
		r := b.ohms(s)
		z, a.g = complex(r, 0), 1/r
	}
	if b.reactance != nil {
		z += complex(0, b.reactance(s))
	}
	if b.farads != nil {
		z, a.g = z-complex(0, 1/(omega*b.farads(s))), 0
	}
	if b.dcOhms != nil {
		a.g = 1 / b.dcOhms(s)
	}
	if z != 0 {
		a.y = 1 / (z * complex(factor, 0))
	}
	if a.g = a.g / factor; math.IsInf(a.g, 0) || math.IsNaN(a.g) {
		a.g = 0
	}
	return a
}

// emf is the source in the branch, in volts at mains frequency and at dc.
func (b *branch) emf(s *Subject) (ac complex128, dc float64) {
	if b.volts != nil {
		ac = complex(b.volts(s), 0)
	}
	if b.dcVolts != nil {
		dc = b.dcVolts(s)
	}
	return ac, dc
}

// admittance is a branch in siemens, at mains frequency and at dc.
type admittance struct {
	y complex128
	g float64
}

// Ohms of what joins things. Common practice, no source.
const (
	jointOhms    = 0.001 // a terminal, a part on its point
	endOhms      = 0.01  // a core's end under its screw
	poleOhms     = 0.01  // a closed pole of a breaker or an isolator
	airOhms      = 10e9  // anything to earth, through what holds it
	coreOhmMetre = 0.0195
)

// pairFarads is the capacitance of two cores side by side in a flat or a flex,
// F per m: PVC cores come to 60 to 110 pF/m by π·ε0·εr / arcosh(D/d).
const pairFarads = 90e-12
