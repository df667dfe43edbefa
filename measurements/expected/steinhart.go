package expected

import (
	"errors"
	"fmt"
	"math"
)

// SteinhartHart is 1/T = a + b·y + c·y² + d·y³ with y = ln(R/Ref), T in kelvin.
// The classic three-term form has Ref 1 Ω and no square term; the four-term one
// is in the ratio to the resistance at 25 °C.
type SteinhartHart struct {
	terms [4]float64
	ref   float64 // Ω
	span  float64 // |y - middle| the solver searches
	mid   float64
	name  string
}

// NewSteinhartHart3 takes A, B, C of 1/T = A + B·ln R + C·(ln R)³, R in Ω.
func NewSteinhartHart3(a, b, c float64) (SteinhartHart, error) {
	s := SteinhartHart{terms: [4]float64{a, b, 0, c}, ref: 1, mid: math.Log(1e3), span: math.Log(1e6)}
	s.name = fmt.Sprintf("Steinhart-Hart equation, A %g, B %g, C %g", a, b, c)
	return s, s.check()
}

// NewSteinhartHart4 takes A, B, C, D of 1/T = A + B·y + C·y² + D·y³ with
// y = ln(R/R25), the form component tables publish.
func NewSteinhartHart4(a, b, c, d, r25 float64) (SteinhartHart, error) {
	s := SteinhartHart{terms: [4]float64{a, b, c, d}, ref: r25, span: math.Log(1e4)}
	s.name = fmt.Sprintf("four-term Steinhart-Hart equation, A %g, B %g, C %g, D %g, R25 %g Ω", a, b, c, d, r25)
	return s, firstError(positive("resistance at 25 °C", r25, "Ω"), s.check())
}

// check wants resistance to fall as temperature rises over the whole search: only
// then is there one resistance for one temperature.
func (s SteinhartHart) check() error {
	at := []float64{s.mid - s.span, s.mid + s.span}
	if s.terms[3] != 0 {
		at = append(at, math.Max(at[0], math.Min(at[1], -s.terms[2]/(3*s.terms[3]))))
	}
	for _, y := range at {
		if slope := s.terms[1] + 2*s.terms[2]*y + 3*s.terms[3]*y*y; !(slope > 0) {
			return errors.New("these Steinhart-Hart coefficients turn round within the range of thermistors: expected a resistance that always falls with temperature; check their order and exponents")
		}
	}
	if err := temperature(s.celsius(s.mid)); err != nil && s.ref != 1 {
		return fmt.Errorf("these Steinhart-Hart coefficients do not give a temperature at the resistance for 25 °C: %w", err)
	}
	return nil
}

func (s SteinhartHart) celsius(y float64) float64 { return 1/s.inverse(y) - kelvin }

// Celsius is the temperature at a resistance in Ω.
func (s SteinhartHart) Celsius(ohms float64) (float64, error) {
	if err := positive("resistance", ohms, "Ω"); err != nil {
		return 0, err
	}
	celsius := s.celsius(math.Log(ohms / s.ref))
	return celsius, temperature(celsius)
}

// Ohms finds the resistance at a temperature by halving: 1/T grows with ln R, so
// sixty steps leave nothing in doubt.
func (s SteinhartHart) Ohms(celsius float64) (float64, error) {
	if err := temperature(celsius); err != nil {
		return 0, err
	}
	want := 1 / (celsius + kelvin)
	lo, hi := s.mid-s.span, s.mid+s.span
	if s.inverse(lo) > want || s.inverse(hi) < want {
		return 0, fmt.Errorf("these Steinhart-Hart coefficients give no resistance at %g °C: check their order and exponents", celsius)
	}
	for range 60 {
		if mid := (lo + hi) / 2; s.inverse(mid) < want {
			lo = mid
		} else {
			hi = mid
		}
	}
	return s.ref * math.Exp((lo+hi)/2), nil
}

// inverse is 1/T at y.
func (s SteinhartHart) inverse(y float64) float64 {
	t := s.terms
	return t[0] + y*(t[1]+y*(t[2]+y*t[3]))
}

// Describe names the coefficients used.
func (s SteinhartHart) Describe() (source, note string) { return s.name, "" }
