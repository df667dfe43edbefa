package measurements_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"faultwalk/measurements"
)

// find gives a mode of the default kit or fails the test.
func find(t *testing.T, m measurements.Mode, q measurements.Quantity) measurements.ModeSpec {
	t.Helper()
	_, spec, ok := measurements.DefaultKit().Find(m, q)
	if !ok {
		t.Fatalf("the default kit has no %s for %s", m, q)
	}
	return spec
}

func parse(t *testing.T, q measurements.Quantity, typed string) measurements.Reading {
	t.Helper()
	r, err := measurements.Parse(q, typed)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func near(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(b)) }

func TestWideningAddsPercentOfReadingAndCounts(t *testing.T) {
	t.Parallel()

	for _, c := range []struct {
		spec   measurements.ModeSpec
		typed  string
		lo, hi float64
	}{
		{find(t, measurements.HighImpedance, measurements.ACVolts), "230", 227.4, 232.6},      // 2.3 + 3 × 0.1
		{find(t, measurements.HighImpedance, measurements.ACVolts), "0", 0, 0.0003},           // no less than nothing
		{find(t, measurements.HighImpedance, measurements.ACVolts), "0.5-230", 0.4947, 232.6}, // each end on its range
		{find(t, measurements.HighImpedance, measurements.ACVolts), "<1", 0, 1.013},
		{find(t, measurements.HighImpedance, measurements.ACVolts), ">5", 4.947, 1000},
		{find(t, measurements.ModeDCVolts, measurements.DCVolts), "-0.3", -0.3017, -0.2983},
		{find(t, measurements.ModeOhms, measurements.Ohms), "17.6", 17.2416, 17.9584},
		{find(t, measurements.ModeOhms, measurements.Ohms), "2k2", 2178.2, 2221.8},
		{find(t, measurements.ModeOhms, measurements.Ohms), ">20M", 19.8e6, inf},
		{find(t, measurements.ModeOhms, measurements.Ohms), "OL", 60e6, inf},
		{find(t, measurements.ModeContinuity, measurements.Continuity), "OL", 600, inf},
	} {
		got := c.spec.Widen(parse(t, c.spec.Quantity, c.typed))
		if !near(got.Lo, c.lo) || !near(got.Hi, c.hi) {
			t.Errorf("%s %q widens to %v, want [%v %v]", c.spec.Mode, c.typed, got, c.lo, c.hi)
		}
	}
}

func TestWideningNeverLosesTheReading(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		kit := measurements.DefaultKit()
		i := rapid.SampledFrom(kit.Instruments).Draw(t, "instrument")
		s := rapid.SampledFrom(i.Modes).Draw(t, "mode")
		domain := s.Quantity.Domain()
		v := rapid.Float64Range(domain.Lo, math.Min(domain.Hi, s.Top())).Draw(t, "value")
		r := measurements.Reading{Quantity: s.Quantity, Value: measurements.Point(v)}
		if wide := s.Widen(r); !wide.Contains(v) || !wide.Within(domain) {
			t.Fatalf("%s: %v widens to %v in %v", s.Mode, v, wide, domain)
		}
	})
}

func TestLowImpedanceAbove30kCountsAsHigh(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		mode measurements.Mode
		ohms float64
		want measurements.Mode
	}{
		{measurements.LowImpedance, 3e3, measurements.LowImpedance},
		{measurements.LowImpedance, 30e3, measurements.LowImpedance},
		{measurements.LowImpedance, 400e3, measurements.HighImpedance},
		{measurements.TwoPoleLoaded, 7e3, measurements.TwoPoleLoaded},
		{measurements.TwoPoleLoaded, 200e3, measurements.TwoPoleUnloaded},
		{measurements.HighImpedance, 10e6, measurements.HighImpedance},
	} {
		s := measurements.ModeSpec{Mode: c.mode, Quantity: measurements.ACVolts, InputOhms: c.ohms}
		if got := s.ActsAs(); got != c.want {
			t.Errorf("%s of %g Ω acts as %s, want %s", c.mode, c.ohms, got, c.want)
		}
	}
}

func TestKitWithWeakLowImpedanceHasNone(t *testing.T) {
	t.Parallel()
	kit := measurements.Kit{Instruments: []measurements.Instrument{{ID: "m", Modes: []measurements.ModeSpec{
		{Mode: measurements.LowImpedance, Quantity: measurements.ACVolts, InputOhms: 300e3, Ranges: []measurements.Range{{Max: 600, Resolution: 0.1}}},
	}}}}
	if _, _, ok := kit.Find(measurements.LowImpedance, measurements.ACVolts); ok {
		t.Error("a 300 kΩ input was offered where a ghost must collapse")
	}
	if _, _, ok := kit.Find(measurements.HighImpedance, measurements.ACVolts); !ok {
		t.Error("the same input was not offered as high impedance")
	}
}

func TestMeterRefusesWhatItWouldShowAsOL(t *testing.T) {
	t.Parallel()
	s := find(t, measurements.ModeContinuity, measurements.Continuity)
	for _, typed := range []string{"700", "500-700", ">700"} {
		_, err := s.Parse(typed)
		var refusal *measurements.NotAReading
		if !errors.As(err, &refusal) || !strings.Contains(err.Error(), "above the range of this meter (600 Ω)") {
			t.Errorf("%q: got %v", typed, err)
		}
	}
	for _, typed := range []string{"600", "OL", ">100", "0.2-3"} {
		if _, err := s.Parse(typed); err != nil {
			t.Errorf("%q: %v", typed, err)
		}
	}
}

func TestDefaultKitIsValidAndReadsEveryQuantityInEveryMode(t *testing.T) {
	t.Parallel()
	kit := measurements.DefaultKit()
	if err := kit.Validate(); err != nil {
		t.Error(err)
	}
	if !kit.ProvingUnit {
		t.Error("no proving unit: nothing could be proved dead")
	}
	for _, q := range measurements.Quantities() {
		for _, m := range measurements.ModesFor(q) {
			find(t, m, q)
		}
	}
	if _, ok := kit.Instrument("clamp"); !ok {
		t.Error("the clamp is not found by its id")
	}
	if _, ok := kit.Instrument("crystal ball"); ok {
		t.Error("an instrument nobody has was found")
	}
}

func TestOnlyLoadingModesLoad(t *testing.T) {
	t.Parallel()
	for _, q := range measurements.Quantities() {
		for _, m := range measurements.ModesFor(q) {
			want := m == measurements.LowImpedance || m == measurements.TwoPoleLoaded
			if m.Loads() != want || !m.Known() {
				t.Errorf("%s: loads %v, known %v", m, m.Loads(), m.Known())
			}
		}
	}
}

func TestBadKitIsReportedWholeWithNames(t *testing.T) {
	t.Parallel()
	kit := measurements.Kit{Instruments: []measurements.Instrument{
		{ID: "", Modes: nil},
		{ID: "a", Modes: []measurements.ModeSpec{
			{Mode: "loud", Quantity: measurements.Ohms, Ranges: []measurements.Range{{Max: 1, Resolution: 0.1}}},
			{Mode: measurements.Clamp, Quantity: measurements.Ohms},
			{Mode: measurements.HighImpedance, Quantity: measurements.ACVolts, Accuracy: measurements.Accuracy{Percent: -1},
				Ranges: []measurements.Range{{Max: 6, Resolution: 7}, {Max: 5, Resolution: 1}}},
			{Mode: measurements.ModeOhms, Quantity: "mho", Ranges: []measurements.Range{{Max: math.NaN(), Resolution: 0}}},
		}},
		{ID: "a", Modes: []measurements.ModeSpec{{Mode: measurements.ModeOhms, Quantity: measurements.Ohms, Ranges: []measurements.Range{{Max: 1, Resolution: 0.1}}}}},
	}}
	err := kit.Validate()
	if err == nil {
		t.Fatal("accepted")
	}
	want := []string{
		`instrument 1: id is missing`,
		`instrument 1: modes is empty`,
		`instrument "a": mode "loud": there is no such mode`,
		`instrument "a": mode "clamp": cannot read ohms; ohms is read by [ohms]`,
		`instrument "a": mode "clamp": ranges is empty`,
		`mode "high impedance": input_ohms is missing`,
		`mode "high impedance": accuracy is below zero`,
		`range 1: resolution 7`,
		`range 2: max 5 is not above the one before (6)`,
		`quantity "mho" is not one of`,
		`range 1: max NaN`,
		`range 1: resolution 0`,
		`instrument 3: id "a" is used twice`,
	}
	for _, w := range want {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("missing %q in\n%v", w, err)
		}
	}
}

func TestVerdictNeedsTheWholeInterval(t *testing.T) {
	t.Parallel()
	allowed := measurements.Interval{Lo: 216.2, Hi: 253}
	for _, c := range []struct {
		lo, hi float64
		want   measurements.Verdict
	}{
		{220, 230, measurements.Inside},
		{216.2, 253, measurements.Inside},
		{210, 220, measurements.Straddles},
		{200, 300, measurements.Straddles},
		{253, 260, measurements.Straddles},
		{100, 200, measurements.Outside},
		{254, inf, measurements.Outside},
	} {
		if got := (measurements.Interval{Lo: c.lo, Hi: c.hi}).Against(allowed); got != c.want {
			t.Errorf("[%v %v] is %s, want %s", c.lo, c.hi, got, c.want)
		}
	}
}
