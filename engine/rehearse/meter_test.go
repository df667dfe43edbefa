package rehearse

import (
	"math"
	"math/rand/v2"
	"testing"

	"faultwalk/measurements"
)

// The multimeter of the default kit: 600 V range to 0.1 V, ±(1 % + 3 counts).
func spec(t *testing.T, m measurements.Mode, q measurements.Quantity) measurements.ModeSpec {
	t.Helper()
	_, s, ok := measurements.DefaultKit().Find(m, q)
	if !ok {
		t.Fatal("no ", m)
	}
	return s
}

func TestMeterShowsCountsOfItsRange(t *testing.T) {
	t.Parallel()
	s := spec(t, measurements.HighImpedance, measurements.ACVolts)
	if got := shows(s, 231.4567, false, nil); got.Value != measurements.Point(231.5) {
		t.Errorf("231.4567 V shows %v", got)
	}
	o := spec(t, measurements.ModeOhms, measurements.Ohms)
	for _, v := range []float64{math.Inf(1), 1e9} {
		if got := shows(o, v, false, nil); !got.Open {
			t.Errorf("%g Ω shows %v, expected OL", v, got)
		}
	}
}

func TestNoiseStaysWithinTheAccuracyAndFillsIt(t *testing.T) {
	t.Parallel()
	s := spec(t, measurements.HighImpedance, measurements.ACVolts)
	rng := rand.New(rand.NewPCG(1, 2))
	lo, hi, most := math.Inf(1), 0.0, s.Error(230)+0.05 // half a count of rounding
	for range 1000 {
		v := shows(s, 230, false, rng).Value.Lo
		lo, hi = min(lo, v), max(hi, v)
	}
	if lo < 230-most || hi > 230+most || hi-lo < 1.8*s.Error(230) {
		t.Errorf("230 V shows %g to %g with an error of %g", lo, hi, s.Error(230))
	}
}
