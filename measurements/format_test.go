package measurements_test

import (
	"encoding/json"
	"math"
	"testing"

	"pgregory.net/rapid"

	"faultwalk/measurements"
)

func TestValuesAreWrittenAsTheTradeWritesThem(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		q     measurements.Quantity
		typed string
		want  string
	}{
		{measurements.ACVolts, "231.4", "231.4 V"},
		{measurements.ACVolts, "0.012", "12 mV"},
		{measurements.ACVolts, "0", "0 V"},
		{measurements.ACVolts, "190-240 moving", "190-240 V moving"},
		{measurements.ACVolts, "50m-0.2V", "50 mV-0.2 V"},
		{measurements.ACVolts, "<1", "<1 V"},
		{measurements.DCVolts, "-0.3", "-0.3 V"},
		{measurements.DCVolts, "-0.3-0.5", "-0.3 to 0.5 V"},
		{measurements.Ohms, "2k2", "2.2 kΩ"},
		{measurements.Ohms, "0,52", "0.52 Ω"},
		{measurements.Ohms, "9.2m", "9.2 mΩ"},
		{measurements.Ohms, ">20M", ">20 MΩ"},
		{measurements.Ohms, "open", "OL"},
		{measurements.Insulation, "1.2", "1.2 MΩ"},
		{measurements.Insulation, "2G", "2 GΩ"},
		{measurements.Amps, "0.046", "46 mA"},
		{measurements.Amps, "12", "12 A"},
		{measurements.Leakage, "3.5", "3.5 mA"},
		{measurements.Leakage, "0.5A", "500 mA"},
		{measurements.Celsius, "52", "52 °C"},
	} {
		r, err := measurements.Parse(c.q, c.typed)
		if err != nil {
			t.Errorf("%s %q: %v", c.q, c.typed, err)
		} else if got := r.String(); got != c.want {
			t.Errorf("%s %q is written %q, want %q", c.q, c.typed, got, c.want)
		}
	}
}

func TestApproxKeepsFourDigits(t *testing.T) {
	t.Parallel()
	if got := measurements.Ohms.Approx(230.0 * 230 / 3000); got != "17.63 Ω" {
		t.Errorf("got %q", got)
	}
	if got := measurements.Celsius.Approx(-18.80749999); got != "-18.81 °C" {
		t.Errorf("got %q", got)
	}
}

func TestFormatThenParseGivesTheSameValue(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		q := rapid.SampledFrom(measurements.Quantities()).Draw(t, "quantity")
		domain := q.Domain()
		v := rapid.Float64Range(domain.Lo, math.Min(domain.Hi, 1e6)).Draw(t, "value")
		if v != 0 && math.Abs(v) < 1e-9 {
			t.Skip("below what any meter shows")
		}
		text := q.Format(v)
		r, err := measurements.Parse(q, text)
		if err != nil || r.Value != measurements.Point(v) {
			t.Fatalf("%v is written %q and read back as %v (%v)", v, text, r.Value, err)
		}
	})
}

func TestIntervalSurvivesJSONWithInfinity(t *testing.T) {
	t.Parallel()
	for _, i := range []measurements.Interval{{Lo: 1, Hi: 2}, {Lo: 20e6, Hi: inf}, {Lo: inf, Hi: inf}, {Lo: -0.3, Hi: -0.3}, {Lo: -inf, Hi: 0.5}} {
		text, err := json.Marshal(i)
		if err != nil {
			t.Fatal(err)
		}
		var back measurements.Interval
		if err := json.Unmarshal(text, &back); err != nil || back != i {
			t.Errorf("%v became %s and then %v (%v)", i, text, back, err)
		}
	}
}

func TestBrokenIntervalJSONIsRefused(t *testing.T) {
	t.Parallel()
	for _, text := range []string{`[1]`, `[1,2,3]`, `{}`, `[2,1]`, `["a",1]`, `[null,1]`, `null`} {
		var i measurements.Interval
		if err := json.Unmarshal([]byte(text), &i); err == nil {
			t.Errorf("%s was taken as %v", text, i)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"231.4V", "2k2", "4.7 kΩ", "0,52", "52m", "OL", ">20M", "<1", "-0.3", "190-240 moving", "240 v ac", "20 degC", "−5--3", "1,234"} {
		for n := range measurements.Quantities() {
			f.Add(n, seed)
		}
	}
	f.Fuzz(func(t *testing.T, n int, typed string) {
		quantities := measurements.Quantities()
		q := quantities[((n%len(quantities))+len(quantities))%len(quantities)]
		r, err := measurements.Parse(q, typed)
		if err != nil {
			return
		}
		lo, hi := r.Value.Lo, r.Value.Hi
		if !(lo <= hi) || math.IsInf(lo, -1) || math.IsInf(lo, 1) != r.Open || !r.Value.Within(q.Domain()) {
			t.Fatalf("%s %q gives %v", q, typed, r.Value)
		}
		again, err := measurements.Parse(q, r.String())
		if err != nil || again.Value != r.Value || again.Moving != r.Moving || again.Open != r.Open {
			t.Fatalf("%s %q is written %q, which reads as %v (%v), not %v", q, typed, r.String(), again.Value, err, r.Value)
		}
	})
}
