package expected

import (
	"fmt"
	"math"

	"faultwalk/measurements"
)

// kelvin is 0 °C.
const kelvin = 273.15

// Sensors of a heat pump or cylinder work well inside these, in °C; a formula
// asked beyond them has been given a slip of the keyboard.
const coldest, hottest = -100, 400

// Curve relates a sensor's resistance to its temperature, both ways.
type Curve interface {
	// Ohms is the resistance at a temperature in °C; an error names the range.
	Ohms(celsius float64) (float64, error)
	// Celsius is the temperature at a resistance in Ω; an error names the range.
	Celsius(ohms float64) (float64, error)
	// Describe gives where the curve comes from and what to know about it.
	Describe() (source, note string)
}

// Tolerance is how far a healthy sensor may be out: the sensor's own percent of
// resistance, and how well its true temperature is known.
type Tolerance struct {
	Percent float64 // of resistance
	Kelvin  float64 // of the reference thermometer beside it
}

// UsualTolerance is ±5 % and ±2 K. Common practice, no source.
func UsualTolerance() Tolerance { return Tolerance{Percent: 5, Kelvin: 2} }

// Thermistor is the resistance of a sensor at a temperature in °C, in Ω. Near the
// end of a table a limit that would lie outside it is left out, and the note says so.
func Thermistor(c Curve, celsius float64, tol Tolerance) (Expected, error) {
	if !(tol.Percent >= 0 && tol.Percent < 100) || !(tol.Kelvin >= 0) {
		return Expected{}, fmt.Errorf("tolerance ±%g %% and ±%g K: expected 0 to under 100 %% and 0 K or more", tol.Percent, tol.Kelvin)
	}
	nominal, err := c.Ohms(celsius)
	if err != nil {
		return Expected{}, err
	}
	source, note := c.Describe()
	e := Expected{Nominal: number(nominal), Unit: "Ω", Source: source, Note: note}
	for _, at := range []float64{celsius - tol.Kelvin, celsius + tol.Kelvin} {
		ohms, err := c.Ohms(at)
		if err != nil {
			e.Note = join(e.Note, fmt.Sprintf("no limit on one side: %v", err))
			continue
		}
		if ohms <= nominal {
			e.Low = number(ohms * (1 - tol.Percent/100))
		}
		if ohms >= nominal {
			e.High = number(ohms * (1 + tol.Percent/100))
		}
	}
	return e, nil
}

// ThermistorBetween is [Thermistor] where the true temperature is known to lie
// between two others, in °C.
func ThermistorBetween(c Curve, from, to, percent float64) (Expected, error) {
	return Thermistor(c, (from+to)/2, Tolerance{Percent: percent, Kelvin: math.Abs(to-from) / 2})
}

// CelsiusOf is the temperature a sensor reports with a widened reading in Ω: the
// inverse used to judge a sensor by what its controller must be thinking.
func CelsiusOf(c Curve, ohms measurements.Interval) (measurements.Interval, error) {
	a, err := c.Celsius(ohms.Lo)
	if err != nil {
		return measurements.Interval{}, err
	}
	b, err := c.Celsius(ohms.Hi)
	if err != nil {
		return measurements.Interval{}, err
	}
	return measurements.Interval{Lo: math.Min(a, b), Hi: math.Max(a, b)}, nil
}

// temperature refuses a temperature no such sensor sees.
func temperature(celsius float64) error {
	return within("temperature", celsius, coldest, hottest, "°C")
}

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}
