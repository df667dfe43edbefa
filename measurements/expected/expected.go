package expected

import (
	"fmt"
	"math"

	"faultwalk/measurements"
)

// Expected is what a reading should be. A nil limit means the source sets none.
type Expected struct {
	Low     *float64 `json:"low"`
	Nominal *float64 `json:"nominal"`
	High    *float64 `json:"high"`
	Unit    string   `json:"unit"`
	Source  string   `json:"source"`
	Note    string   `json:"note,omitempty"` // what a person should know before trusting it

	// EightyPercent is 80 % of High where that is what a cold circuit is held
	// to: only maximum loop impedance has it.
	EightyPercent *float64 `json:"eighty_percent,omitempty"`
}

// Named is an expected value that is one row of a table.
type Named struct {
	Name string `json:"name"`
	Expected
}

// Interval is what is allowed: a missing limit is infinite, and a nominal value
// alone allows nothing else.
func (e Expected) Interval() measurements.Interval {
	if e.Low == nil && e.High == nil && e.Nominal != nil {
		return measurements.Point(*e.Nominal)
	}
	allowed := measurements.Interval{Lo: math.Inf(-1), Hi: math.Inf(1)}
	if e.Low != nil {
		allowed.Lo = *e.Low
	}
	if e.High != nil {
		allowed.Hi = *e.High
	}
	return allowed
}

// WithinPercent is a nominal value with limits in percent of it: -6 and +10 for
// the British supply are given as 6 and 10.
func WithinPercent(nominal, minus, plus float64, unit, source string) Expected {
	return Expected{
		Low:     number(nominal * (100 - minus) / 100),
		Nominal: number(nominal),
		High:    number(nominal * (100 + plus) / 100),
		Unit:    unit, Source: source,
	}
}

// number makes a limit that is set, free of the last binary digits.
func number(v float64) *float64 {
	v = measurements.Significant(v, 12)
	return &v
}

// positive refuses a number that has to be above zero, naming it.
func positive(name string, v float64, unit string) error {
	if v > 0 && !math.IsInf(v, 0) {
		return nil
	}
	return fmt.Errorf("%s is %g %s: expected a number above 0", name, v, unit)
}

// within refuses a number outside the range a formula holds for, naming both.
func within(name string, v, lo, hi float64, unit string) error {
	if lo <= v && v <= hi {
		return nil
	}
	return fmt.Errorf("%s is %g %s: expected %g to %g %s", name, v, unit, lo, hi, unit)
}

// firstError gives the first of several checks that failed.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
