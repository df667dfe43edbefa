package measurements

import (
	"math"
	"testing"
)

// The counts are those of the default kit's ranges: 6000 counts, and 0.1 V in
// the 600 V range, as multimeters of that kind commonly state. From memory.
func TestRoundedKeepsTheCountsOfItsRange(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		mode  Mode
		of    Quantity
		value float64
		shown float64
	}{
		{HighImpedance, ACVolts, 231.4567, 231.5},
		{HighImpedance, ACVolts, 0.12345, 0.1235},
		{LowImpedance, ACVolts, 0.0091, 0},
		{HighImpedance, ACVolts, -3.14159, -3.142},
		{ModeOhms, Ohms, 2612.4, 2612},
		{ModeOhms, Ohms, 1e9, 1e9}, // above the top: OL is not a number
		{ModeOhms, Ohms, math.Inf(1), math.Inf(1)},
	} {
		_, s, ok := DefaultKit().Find(c.mode, c.of)
		if !ok {
			t.Fatal("no ", c.mode)
		}
		if got := s.Rounded(c.value); got != c.shown {
			t.Errorf("%s: %g is shown as %g, expected %g", c.mode, c.value, got, c.shown)
		}
	}
	if got := (ModeSpec{}).Rounded(1.23456); got != 1.23456 {
		t.Errorf("a meter without ranges shows %g", got)
	}
}
