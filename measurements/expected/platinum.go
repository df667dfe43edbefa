package expected

import (
	"fmt"
	"math"
)

// Coefficients of IEC 60751:2008 for platinum of 0.00385 1/K.
const (
	platinumA = 3.9083e-3  // 1/K
	platinumB = -5.775e-7  // 1/K²
	platinumC = -4.183e-12 // 1/K⁴, below 0 °C only
)

// Platinum is a platinum resistance sensor to IEC 60751.
type Platinum struct {
	R0 float64 // Ω at 0 °C: 100 or 1000
}

// NewPlatinum checks that the resistance at 0 °C is above zero.
func NewPlatinum(r0 float64) (Platinum, error) {
	return Platinum{R0: r0}, positive("resistance at 0 °C", r0, "Ω")
}

// platinumRange is the span of IEC 60751 in °C.
func platinumRange(celsius float64) error {
	return within("temperature", celsius, -200, 850, "°C")
}

func (p Platinum) ohms(t float64) float64 {
	ratio := 1 + platinumA*t + platinumB*t*t
	if t < 0 {
		ratio += platinumC * (t - 100) * t * t * t
	}
	return p.R0 * ratio
}

// Ohms is the Callendar-Van Dusen equation, -200 to 850 °C.
func (p Platinum) Ohms(celsius float64) (float64, error) {
	return p.ohms(celsius), platinumRange(celsius)
}

// Celsius inverts [Platinum.Ohms]: the quadratic from 0 °C up, halving below.
func (p Platinum) Celsius(ohms float64) (float64, error) {
	if lowest, highest := p.ohms(-200), p.ohms(850); !(lowest <= ohms && ohms <= highest) {
		return 0, fmt.Errorf("resistance is %g Ω: a platinum sensor of %g Ω lies between %.2f and %.2f Ω", ohms, p.R0, lowest, highest)
	}
	if ohms >= p.R0 {
		return (-platinumA + math.Sqrt(platinumA*platinumA-4*platinumB*(1-ohms/p.R0))) / (2 * platinumB), nil
	}
	lo, hi := -200.0, 0.0
	for range 60 {
		if mid := (lo + hi) / 2; p.ohms(mid) < ohms {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, nil
}

// Describe names the standard.
func (p Platinum) Describe() (source, note string) {
	return fmt.Sprintf("IEC 60751, %g Ω at 0 °C", p.R0), ""
}

// PlatinumClass is a tolerance class of IEC 60751: AA, A, B or C.
type PlatinumClass string

// Kelvin is the class tolerance at a temperature, in K.
func (c PlatinumClass) Kelvin(celsius float64) (float64, error) {
	t := math.Abs(celsius)
	switch c {
	case "AA":
		return 0.1 + 0.0017*t, nil
	case "A":
		return 0.15 + 0.002*t, nil
	case "B":
		return 0.3 + 0.005*t, nil
	case "C":
		return 0.6 + 0.01*t, nil
	}
	return 0, fmt.Errorf("class %q: expected AA, A, B or C (IEC 60751)", string(c))
}

// PlatinumAt is the resistance of a platinum sensor of a class at a temperature in
// °C, in Ω; reference is how well that temperature is known, in K, 0 for the
// sensor's own tolerance alone.
func PlatinumAt(p Platinum, celsius float64, class PlatinumClass, reference float64) (Expected, error) {
	tolerance, err := class.Kelvin(celsius)
	if err != nil {
		return Expected{}, err
	}
	e, err := Thermistor(p, celsius, Tolerance{Kelvin: tolerance + reference})
	e.Source += ", class " + string(class)
	return e, err
}
