package expected

import (
	"fmt"
	"math"
)

// vacuum is the permittivity of free space in F/m.
const vacuum = 8.8541878128e-12

// PairCapacitance is the capacitance of two parallel cores in F per m:
// π·ε0·εr / arcosh(D/d) for conductors of diameter d whose centres are D apart,
// both in the same unit. PVC cores touching come to 60 to 110 pF/m.
func PairCapacitance(diameter, spacing, permittivity float64) (float64, error) {
	err := firstError(positive("conductor diameter", diameter, "mm"), positive("relative permittivity", permittivity, ""))
	if err == nil && !(spacing > diameter) {
		err = fmt.Errorf("spacing %g mm: expected more than the conductor's diameter, %g mm", spacing, diameter)
	}
	return math.Pi * vacuum * permittivity / math.Acosh(spacing/diameter), err
}

// Ghost is what a meter of so many Ω shows on a core that nothing drives, lying
// beside a live one with so many F between them, in V at 230 V and 50 Hz. The
// core's capacitance to earth, which lowers it, is left out: it is the most.
func Ghost(farads, meterOhms float64) (Expected, error) {
	if err := firstError(positive("capacitance", farads, "F"), positive("meter input", meterOhms, "Ω")); err != nil {
		return Expected{}, err
	}
	reactance := 1 / (2 * math.Pi * 50 * farads)
	return Expected{
		Low: number(0), High: number(230 * meterOhms / math.Hypot(meterOhms, reactance)), Unit: "V",
		Source: fmt.Sprintf("capacitive divider, %.3g Ω at 50 Hz into %g Ω", reactance, meterOhms),
		Note:   "a core that is driven shows full mains on a low-impedance meter as well",
	}, nil
}
