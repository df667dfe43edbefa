package expected

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

const iec60898 = "IEC 60898-1 Table 7"

// Breaker is a miniature circuit-breaker by its curve and rating.
type Breaker struct {
	Curve string  // B, C or D
	Amps  float64 // rated current
}

var breakerText = regexp.MustCompile(`(?i)^(?:type\s*)?(?:([a-z])\s*-?\s*([0-9.]+)|([0-9.]+)\s*a?\s*-?\s*([a-z]))\s*a?$`)

// ratings are the rated currents sold for domestic work, in A.
func ratings() []float64 {
	return []float64{3, 6, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125}
}

// ParseBreaker reads "C32", "c 32 A" or "32C".
func ParseBreaker(text string) (Breaker, error) {
	m := breakerText.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return Breaker{}, fmt.Errorf("breaker %q: expected curve and rating, like B16, C32 or D6", text)
	}
	amps, err := strconv.ParseFloat(m[2]+m[3], 64)
	b := Breaker{Curve: strings.ToUpper(m[1] + m[4]), Amps: amps}
	if err != nil || !slices.Contains(ratings(), amps) {
		return Breaker{}, fmt.Errorf("breaker %q: rating %s A is not made; expected one of %s", text, m[2]+m[3], list(ratings()))
	}
	if _, _, err := b.multiples(); err != nil {
		return Breaker{}, err
	}
	return b, nil
}

func list(values []float64) string {
	return strings.ReplaceAll(strings.Trim(fmt.Sprint(values), "[]"), " ", ", ")
}

// String is the way it is printed on the breaker: "C32".
func (b Breaker) String() string { return fmt.Sprintf("%s%g", b.Curve, b.Amps) }

// multiples is the instantaneous band in multiples of rated current: it holds for
// 0.1 s at the low end and trips within 0.1 s at the high end.
func (b Breaker) multiples() (low, high float64, err error) {
	switch b.Curve {
	case "B":
		return 3, 5, nil
	case "C":
		return 5, 10, nil
	case "D":
		return 10, 20, nil
	}
	return 0, 0, fmt.Errorf("curve %q: expected B, C or D", b.Curve)
}

// TripBand is the current between certainly holding and certainly tripping at
// once, in A.
func (b Breaker) TripBand() (Expected, error) {
	low, high, err := b.multiples()
	if err = firstError(err, positive("rated current", b.Amps, "A")); err != nil {
		return Expected{}, err
	}
	return Expected{
		Low: number(low * b.Amps), High: number(high * b.Amps), Unit: "A",
		Source: fmt.Sprintf("%s, curve %s: %g to %g times rated current", iec60898, b.Curve, low, high),
	}, nil
}

// BreakerBands are the bands of IEC 60898-1 in multiples of rated current.
func BreakerBands() []Named {
	row := func(name string, low, high float64, note string) Named {
		return Named{name, Expected{Low: number(low), High: number(high), Unit: "× In", Source: iec60898, Note: note}}
	}
	var bands []Named
	for _, curve := range []string{"B", "C", "D"} {
		low, high, _ := Breaker{Curve: curve}.multiples()
		bands = append(bands, row(curve+" instantaneous", low, high, "holds 0.1 s at low, trips within 0.1 s at high"))
	}
	const memory = " (from memory)"
	return append(bands,
		row("conventional non-tripping current", 1.13, 1.13, "holds for 1 h up to 63 A, 2 h above"+memory),
		row("conventional tripping current", 1.45, 1.45, "trips within 1 h up to 63 A, 2 h above"+memory),
		row("thermal check", 2.55, 2.55, "trips after 1 s and within 60 s up to 32 A, 120 s above"+memory),
	)
}

// cminVolts is the lowest voltage a fault is reckoned with: Cmin 0.95 × 230 V
// (BS 7671 reg 411.4.4).
const cminVolts = 0.95 * 230

// LoopFormula is the highest earth loop impedance, in Ω, at which a device that
// needs so many amperes still operates: Cmin × U0 / Ia, unrounded.
func LoopFormula(operatingAmps float64) float64 { return cminVolts / operatingAmps }

// OperatingAmps is the current that trips the breaker within 0.4 s or 5 s, in A. A
// D curve has two: 20 times its rating at once and 10 times within 5 s (the latter
// from memory).
func (b Breaker) OperatingAmps(seconds float64) (float64, error) {
	_, high, err := b.multiples()
	if err = firstError(err, positive("rated current", b.Amps, "A")); err != nil {
		return 0, err
	}
	switch {
	case seconds != 0.4 && seconds != 5:
		return 0, fmt.Errorf("disconnection time %g s: expected 0.4 (final circuits) or 5", seconds)
	case seconds == 5 && b.Curve == "D":
		return 10 * b.Amps, nil
	}
	return high * b.Amps, nil
}

// MaximumLoop is the highest earth loop impedance for the breaker, in Ω: high is
// the tabulated maximum, with 80 % of it beside for a circuit measured cold.
func (b Breaker) MaximumLoop(seconds float64) (Expected, error) {
	amps, err := b.OperatingAmps(seconds)
	if err != nil {
		return Expected{}, err
	}
	high := math.Round(100*cminVolts/amps) / 100 // the table has two decimals
	return Expected{
		High: number(high), EightyPercent: number(0.8 * high), Unit: "Ω",
		Source: fmt.Sprintf("BS 7671:2018+A2 Table 41.3, %s within %g s", b, seconds),
		Note:   fmt.Sprintf("0.95 × 230 V / %g A = %.4f Ω before rounding; a circuit measured cold is held to 80 %%", amps, LoopFormula(amps)),
	}, nil
}
