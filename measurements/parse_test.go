package measurements_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"faultwalk/measurements"
)

var inf = math.Inf(1)

func TestPeopleTypeReadingsInManyWays(t *testing.T) {
	t.Parallel()
	const (
		ac, dc, ohm   = measurements.ACVolts, measurements.DCVolts, measurements.Ohms
		cont, meg     = measurements.Continuity, measurements.Insulation
		amp, ma, temp = measurements.Amps, measurements.Leakage, measurements.Celsius
	)
	for _, c := range []struct {
		q      measurements.Quantity
		typed  string
		lo, hi float64
	}{
		{ac, "231", 231, 231},
		{ac, "231.4V", 231.4, 231.4},
		{ac, " 231,4 volts ", 231.4, 231.4},
		{ac, "240 v ac", 240, 240},
		{ac, "240Vac", 240, 240},
		{ac, "240 V a.c.", 240, 240},
		{ac, "240 Vrms", 240, 240},
		{ac, "240ac", 240, 240},
		{ac, "12 mV", 0.012, 0.012},
		{ac, "52m", 0.052, 0.052},
		{ac, "<1", 0, 1},
		{ac, "≤ 1 V", 0, 1},
		{ac, ">5", 5, 1000},
		{ac, "190-240 moving", 190, 240},
		{ac, "190..240 moving", 190, 240},
		{ac, "190 … 240 moving", 190, 240},
		{ac, "moving 190–240", 190, 240},
		{ac, "240 V-190 V moving", 190, 240},
		{ac, "190-240", 190, 240},
		{ac, "190 to 240 V", 190, 240},
		{dc, "-0.3", -0.3, -0.3},
		{dc, "−0,3 V", -0.3, -0.3},
		{dc, "–0.3", -0.3, -0.3},
		{dc, "- 0.3", -0.3, -0.3},
		{dc, "+12.1 Vdc", 12.1, 12.1},
		{dc, "12mVdc", 0.012, 0.012},
		{dc, "3V3", 3.3, 3.3},
		{dc, "<1", -1000, 1},
		{dc, "-5--3", -5, -3},
		{dc, "-0.3-0.5", -0.3, 0.5},
		{dc, "-0", 0, 0},
		{ohm, "2k2", 2200, 2200},
		{ohm, "4.7 kΩ", 4700, 4700},
		{ohm, "4.7 K\u2126", 4700, 4700},
		{ohm, "4k7 ohm", 4700, 4700},
		{ohm, "1.5k", 1500, 1500},
		{ohm, "0,52", 0.52, 0.52},
		{ohm, "0,520", 0.52, 0.52},
		{ohm, ".5", 0.5, 0.5},
		{ohm, "0R5", 0.5, 0.5},
		{ohm, "17.6R", 17.6, 17.6},
		{ohm, "1M5", 1.5e6, 1.5e6},
		{ohm, "52m", 0.052, 0.052},
		{ohm, "52 milliohms", 0.052, 0.052},
		{ohm, "3.2 kilohms", 3200, 3200},
		{ohm, "1234,567", 1234.567, 1234.567},
		{ohm, "OL", inf, inf},
		{ohm, "ol", inf, inf},
		{ohm, "O.L", inf, inf},
		{ohm, "0L MΩ", inf, inf},
		{ohm, "Open circuit", inf, inf},
		{ohm, ">20M", 20e6, inf},
		{ohm, "1-2k", 1000, 2000},
		{cont, "open", inf, inf},
		{cont, "0.05 ohms", 0.05, 0.05},
		{meg, "200", 200e6, 200e6},
		{meg, "0.5", 0.5e6, 0.5e6},
		{meg, "500k", 0.5e6, 0.5e6},
		{meg, ">20", 20e6, inf},
		{meg, ">20 Mohm", 20e6, inf},
		{meg, "1.2 megohms", 1.2e6, 1.2e6},
		{meg, "0 ohm", 0, 0},
		{amp, "12.4 A", 12.4, 12.4},
		{amp, "46 mA", 0.046, 0.046},
		{amp, "46mA ac", 0.046, 0.046},
		{ma, "3.5", 0.0035, 0.0035},
		{ma, "0.02 A", 0.02, 0.02},
		{temp, "20C", 20, 20},
		{temp, "20 degC", 20, 20},
		{temp, "20 degrees c", 20, 20},
		{temp, "-3 °C", -3, -3},
		{temp, "52ºC", 52, 52},
	} {
		r, err := measurements.Parse(c.q, c.typed)
		if err != nil {
			t.Errorf("%s %q: %v", c.q, c.typed, err)
			continue
		}
		if want := (measurements.Interval{Lo: c.lo, Hi: c.hi}); r.Value != want {
			t.Errorf("%s %q = %v, want %v", c.q, c.typed, r.Value, want)
		}
		if r.Moving != strings.Contains(c.typed, "moving") || r.Open != math.IsInf(c.lo, 1) || r.Typed != c.typed {
			t.Errorf("%s %q: moving %v, open %v, typed %q", c.q, c.typed, r.Moving, r.Open, r.Typed)
		}
	}
}

func TestRefusalIsOneLineThatSaysWhatWasExpected(t *testing.T) {
	t.Parallel()
	const (
		ac, dc, ohm = measurements.ACVolts, measurements.DCVolts, measurements.Ohms
		meg, temp   = measurements.Insulation, measurements.Celsius
	)
	for _, c := range []struct {
		q           measurements.Quantity
		typed, want string
	}{
		{ac, "", "nothing was typed; expected volts ac"},
		{ac, "  \t ", "nothing was typed; expected volts ac"},
		{ac, "231 ohm", `"231 ohm" is in ohms and this check reads ac volts; expected volts ac`},
		{ac, "231 Hz", "is in hertz"},
		{ac, "12 V dc", `"12 V dc" is in dc and this check reads ac volts`},
		{dc, "240 vac", "is in ac and this check reads dc volts"},
		{ohm, "231 V", "is in volts and this check reads ohms; expected ohms"},
		{ohm, "20 ac", "is in ac"},
		{temp, "68 F", "is in degrees Fahrenheit"},
		{temp, "20 V", "is in volts"},
		{temp, "2k", "is not a reading"},
		{ac, "5000", "is more than any meter for ac volts shows (1000 V)"},
		{ac, "1000.1", "is more than any meter for ac volts shows (1000 V)"},
		{ac, "-3", "is below what any meter for ac volts shows (0 V)"},
		{ohm, "-2", "no ohmmeter shows less than 0 Ω: null the leads"},
		{temp, "-300", "is below what any meter for celsius shows (-200 °C)"},
		{ac, "0.0000000001", "is smaller than any meter shows"},
		{ac, "OL", "is no value of ac volts: change the range"},
		{ohm, "OL V", "is in volts"},
		{ac, "nothing much", `"nothing much" is not a reading`},
		{ac, "240 bananas", "is not a reading"},
		{ac, "1e3", "is not a reading"},
		{ac, "NaN", "is not a reading"},
		{ac, "0x10", "is not a reading"},
		{ac, "230 moving", "moving between which values? type both ends"},
		{ac, "moving", "is not a reading"},
		{ohm, "1,234", `"1,234" could be thousands or decimals: type 1.234 or 1234`},
		{ohm, "12,345 kΩ", "type 12.345 or 12345"},
		{ohm, "1,234,567", "more than one decimal point"},
		{ohm, "1.2.3", "more than one decimal point"},
		{ohm, "4.7k-5.1", "has a unit on its first value only"},
		{ohm, ">20m", "says milliohms: type M for megohms"},
		{meg, "20m", "says milliohms: type M for megohms"},
		{meg, "2T", "is not a reading"},
		{ac, strings.Repeat("1", 81), "is too long for a reading"},
		{ac, strings.Repeat("1", 60), "more digits than a meter shows"},
		{ac, "2\n3", "is not a reading"},
		{"volts", "231", `"volts" is not a quantity a meter reads`},
	} {
		_, err := measurements.Parse(c.q, c.typed)
		var refusal *measurements.NotAReading
		if !errors.As(err, &refusal) {
			t.Errorf("%s %q: got %v, want a refusal", c.q, c.typed, err)
			continue
		}
		if !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %q:\n got %s\nwant %s", c.q, c.typed, err, c.want)
		}
		if strings.ContainsAny(err.Error(), "\n\r") || !strings.Contains(err.Error(), "expected") {
			t.Errorf("%s %q: not one line with what was expected: %q", c.q, c.typed, err)
		}
	}
}

func TestMainsSlipAsksForTenTimes(t *testing.T) {
	t.Parallel()
	mains := measurements.Interval{Lo: 216.2, Hi: 253}
	for _, c := range []struct {
		typed   string
		suggest float64
	}{
		{"23", 230}, {"23.1", 231}, {"24,05", 240.5}, {"2310", 231},
		{"230", 0}, {"150", 0}, {"5", 0}, {"0", 0}, {"22-24", 0}, {"<23", 0},
	} {
		r, err := measurements.Parse(measurements.ACVolts, c.typed)
		var refusal *measurements.NotAReading
		if errors.As(err, &refusal) {
			r = *refusal.Beyond
		}
		got, ok := measurements.MainsSlip(r, mains)
		if got != c.suggest || ok != (c.suggest != 0) {
			t.Errorf("%q: suggests %v (%v), want %v", c.typed, got, ok, c.suggest)
		}
	}
}

func TestMainsSlipIsNeverSuggestedWhereNoMainsBelongs(t *testing.T) {
	t.Parallel()
	r, err := measurements.Parse(measurements.ACVolts, "23")
	if err != nil {
		t.Fatal(err)
	}
	if v, ok := measurements.MainsSlip(r, measurements.Interval{Lo: 0, Hi: 5}); ok {
		t.Errorf("23 V where 0-5 V belongs suggests %v: it must stand", v)
	}
}
