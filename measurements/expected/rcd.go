package expected

import (
	"fmt"
	"math"
)

// RCDRow is one row of the residual-current device limits.
type RCDRow struct {
	Named
	Multiple float64 `json:"multiple,omitempty"` // of the rated residual current the time holds at
}

// RCDTimes lists operating times in ms at multiples of rated residual current.
func RCDTimes() []RCDRow {
	const general, older = "BS EN 61008-1", "BS 4293 / BS 7288"
	row := func(name string, multiple, low, high float64, source string) RCDRow {
		e := Expected{High: number(high), Unit: "ms", Source: source}
		if low > 0 {
			e.Low = number(low)
		}
		return RCDRow{Named{name, e}, multiple}
	}
	return []RCDRow{
		row("general non-delay", 1, 0, 300, general),
		row("general non-delay", 2, 0, 150, general),
		row("general non-delay", 5, 0, 40, general),
		row("S type delay", 1, 130, 500, general),
		row("S type delay", 2, 60, 200, general+" (low limit from memory)"),
		row("S type delay", 5, 50, 150, general),
		row("older BS 4293 / BS 7288 non-delay", 1, 0, 200, older),
		row("verification test required by BS 7671:2018+A2 643.8", 1, 0, 300, "BS 7671:2018+A2 reg 643.8 (from memory)"),
	}
}

// RCDTrip lists where a device trips, in multiples of rated residual current.
func RCDTrip() []Named {
	const source = "EN 61008-1"
	return []Named{
		{"Type AC/A sinusoidal", Expected{Low: number(0.5), High: number(1), Unit: "× IΔn", Source: source, Note: "no trip at or below half the rated residual current"}},
		{"Type A, pulsating d.c. 0 deg", Expected{Low: number(0.35), High: number(1.4), Unit: "× IΔn", Source: source}},
	}
}

// RCDEarthLoop is the highest earth loop impedance of a TT system behind an RCD of
// so many mA, in Ω: 50 V over the rated residual current.
func RCDEarthLoop(milliamps float64) (Expected, error) {
	if err := positive("rated residual current", milliamps, "mA"); err != nil {
		return Expected{}, err
	}
	return Expected{
		High: number(math.Round(50 / (milliamps / 1000))), Unit: "Ω",
		Source: fmt.Sprintf("BS 7671 Table 41.5, 50 V / %g mA", milliamps),
	}, nil
}

// RCD lists everything about residual-current devices as one table, for a device
// of 30, 100, 300 and 500 mA.
func RCD() []RCDRow {
	rows := RCDTimes()
	for _, trip := range RCDTrip() {
		rows = append(rows, RCDRow{Named: trip})
	}
	for _, milliamps := range []float64{30, 100, 300, 500} {
		e, _ := RCDEarthLoop(milliamps)
		rows = append(rows, RCDRow{Named: Named{fmt.Sprintf("earth loop on TT behind %g mA", milliamps), e}})
	}
	return rows
}
