package expected_test

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"faultwalk/measurements"
	"faultwalk/measurements/expected"
)

// must fails the test on an error and gives the value.
func must[T any](v T, err error) func(t testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// published reads two columns of a reference file as a sensor's table.
func published(t *testing.T, file string) []expected.Point {
	t.Helper()
	_, rows := readReference(t, file)
	var points []expected.Point
	for _, cells := range rows {
		celsius := must(strconv.ParseFloat(cells[0], 64))(t)
		points = append(points, expected.Point{Celsius: celsius, Ohms: must(strconv.ParseFloat(cells[1], 64))(t)})
	}
	return points
}

func TestTableWithALineMissingInterpolatesItBack(t *testing.T) {
	t.Parallel()
	// Four published component tables in steps of 5 K: without one of its lines,
	// over 10 K, a table still gives that temperature within 0.12 K.
	for _, file := range []string{"ntc_10k_b3977.csv", "ntc_10k_b3435.csv", "ntc_10k_b3380_linux.csv", "ntc_100k_linux.csv"} {
		points := published(t, file)
		for n := 1; n < len(points)-1; n++ {
			rest := append(append([]expected.Point{}, points[:n]...), points[n+1:]...)
			table := must(expected.NewTable(rest, file))(t)
			got := must(table.Celsius(points[n].Ohms))(t)
			if math.Abs(got-points[n].Celsius) > 0.12 {
				t.Errorf("%s: %g Ω gives %.3f °C, want %g", file, points[n].Ohms, got, points[n].Celsius)
			}
		}
	}
}

func TestTableGivesItsOwnLinesBackExactly(t *testing.T) {
	t.Parallel()
	points := published(t, "ntc_10k_b3977.csv")
	table := must(expected.NewTable(points, "a published table"))(t)
	for _, p := range points {
		if got := must(table.Ohms(p.Celsius))(t); got != p.Ohms {
			t.Errorf("%g °C gives %g Ω, want %g", p.Celsius, got, p.Ohms)
		}
		if got := must(table.Celsius(p.Ohms))(t); math.Abs(got-p.Celsius) > 1e-9 {
			t.Errorf("%g Ω gives %g °C, want %g", p.Ohms, got, p.Celsius)
		}
	}
}

func TestTableRefusesWhatLiesOutsideIt(t *testing.T) {
	t.Parallel()
	table := must(expected.NewTable([]expected.Point{{0, 32650}, {50, 3603}}, "two lines"))(t)
	for _, celsius := range []float64{-0.1, 50.1, math.NaN(), math.Inf(1)} {
		if got, err := table.Ohms(celsius); err == nil {
			t.Errorf("%g °C gave %g Ω", celsius, got)
		}
	}
	for _, ohms := range []float64{3602, 32651, math.NaN(), math.Inf(1)} {
		if got, err := table.Celsius(ohms); err == nil {
			t.Errorf("%g Ω gave %g °C", ohms, got)
		}
	}
}

func TestBadTableNamesThePointAsGiven(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		points []expected.Point
		index  int
		want   string
	}{
		{nil, -1, "at least two lines"},
		{[]expected.Point{{20, 100}}, 0, "at least two lines"},
		{[]expected.Point{{50, 1}, {20, 2}, {20, 3}}, 2, "20 °C is given twice"},
		{[]expected.Point{{50, 1}, {20, 0}}, 1, "resistance is 0 Ω: expected a number above 0"},
		{[]expected.Point{{50, 1}, {20, -4}}, 1, "resistance is -4 Ω"},
		{[]expected.Point{{-300, 1}, {20, 4}}, 0, "temperature is -300 °C"},
		{[]expected.Point{{math.NaN(), 1}, {20, 4}}, 0, "temperature is NaN °C"},
		{[]expected.Point{{60, 30}, {40, 10}, {20, 20}}, 0, "go one way"},
		{[]expected.Point{{20, 30}, {40, 10}, {60, 10}}, 2, "go one way"},
	} {
		_, err := expected.NewTable(c.points, "")
		var point *expected.PointError
		if !errors.As(err, &point) || point.Index != c.index || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: got %v (%+v), want point %d: %s", c.points, err, point, c.index, c.want)
		}
	}
}

func TestSensorThatRisesWithHeatHasItsLimitsTheRightWayRound(t *testing.T) {
	t.Parallel()
	rising := must(expected.NewTable([]expected.Point{{0, 1000}, {100, 1400}}, "rising"))(t)
	e := must(expected.Thermistor(rising, 50, expected.UsualTolerance()))(t)
	if !(*e.Low < *e.Nominal && *e.Nominal < *e.High) {
		t.Errorf("%g, %g, %g", *e.Low, *e.Nominal, *e.High)
	}
	if got := must(rising.Celsius(*e.Nominal))(t); math.Abs(got-50) > 1e-9 {
		t.Errorf("comes back as %g °C", got)
	}
}

func TestLimitBeyondTheTableIsLeftOutAndSaid(t *testing.T) {
	t.Parallel()
	table := must(expected.NewTable([]expected.Point{{0, 32650}, {50, 3603}}, "two lines"))(t)
	e := must(expected.Thermistor(table, 50, expected.UsualTolerance()))(t)
	if e.Low != nil || e.High == nil || !strings.Contains(e.Note, "no limit on one side: the table runs from 0 to 50 °C") {
		t.Errorf("low %v, high %v, note %q", e.Low, e.High, e.Note)
	}
	if _, err := expected.Thermistor(table, 51, expected.UsualTolerance()); err == nil {
		t.Error("a temperature outside the table was answered")
	}
}

func TestToleranceCoversSensorAndThermometer(t *testing.T) {
	t.Parallel()
	curve := must(expected.NewBeta(10e3, 3977))(t)
	e := must(expected.Thermistor(curve, 50, expected.UsualTolerance()))(t)
	low, high := must(curve.Ohms(52))(t)*0.95, must(curve.Ohms(48))(t)*1.05
	if math.Abs(*e.Low-low) > 1e-6 || math.Abs(*e.High-high) > 1e-6 {
		t.Errorf("%g to %g, want %g to %g", *e.Low, *e.High, low, high)
	}
	exact := must(expected.Thermistor(curve, 50, expected.Tolerance{}))(t)
	if *exact.Low != *exact.Nominal || *exact.High != *exact.Nominal {
		t.Errorf("no tolerance gives %g to %g", *exact.Low, *exact.High)
	}
	between := must(expected.ThermistorBetween(curve, 52, 48, 5))(t)
	if math.Abs(*between.Low-low) > 1e-6 || math.Abs(*between.High-high) > 1e-6 {
		t.Errorf("between gives %g to %g", *between.Low, *between.High)
	}
	for _, tol := range []expected.Tolerance{{Percent: -1}, {Percent: 100}, {Kelvin: -1}, {Percent: math.NaN()}} {
		if _, err := expected.Thermistor(curve, 50, tol); err == nil {
			t.Errorf("%+v accepted", tol)
		}
	}
}

func TestBetaNoteStatesTheColdEndBiasOfPublishedTables(t *testing.T) {
	t.Parallel()
	_, note := must(expected.NewBeta(10e3, 3977))(t).Describe()
	for _, c := range []struct {
		celsius                float64
		said                   string
		percent, percentTo     float64
		kelvinFrom, kelvinUpTo float64
	}{
		{-20, "10 to 15 % (about 2 K) at -20 °C", 9.5, 15, 1.5, 2.6},
		{-40, "20 to 32 % (3 to 4.5 K) at -40 °C", 20, 32, 2.9, 4.5},
	} {
		if !strings.Contains(note, c.said) {
			t.Errorf("the note does not say %q: %s", c.said, note)
		}
		for file, b := range map[string]float64{"ntc_10k_b3977.csv": 3977, "ntc_10k_b3435.csv": 3435, "ntc_10k_b3380_linux.csv": 3380, "ntc_100k_linux.csv": 4311} {
			table := must(expected.NewTable(published(t, file), file))(t)
			r25 := must(table.Ohms(25))(t)
			curve := must(expected.NewBeta(r25, b))(t)
			truth := must(table.Ohms(c.celsius))(t)
			percent := 100 * (must(curve.Ohms(c.celsius))(t)/truth - 1)
			out := must(curve.Celsius(truth))(t) - c.celsius
			if percent < c.percent || percent > c.percentTo || out < c.kelvinFrom || out > c.kelvinUpTo {
				t.Errorf("%s at %g °C: %.1f %%, %.2f K", file, c.celsius, percent, out)
			}
		}
	}
}

func TestCurvesComeBackToTheSameTemperature(t *testing.T) {
	t.Parallel()
	curves := []expected.Curve{
		must(expected.NewBeta(12e3, 3740))(t),
		must(expected.NewSteinhartHart3(1.129148e-3, 2.34125e-4, 8.76741e-8))(t),
		fourTerm3977(t, 10e3),
		must(expected.NewPlatinum(1000))(t),
		must(expected.NewTable(published(t, "ntc_10k_b3435.csv"), ""))(t),
	}
	rapid.Check(t, func(t *rapid.T) {
		curve := curves[rapid.IntRange(0, len(curves)-1).Draw(t, "curve")]
		celsius := rapid.Float64Range(-40, 110).Draw(t, "celsius")
		ohms, err := curve.Ohms(celsius)
		if err != nil {
			t.Fatal(err)
		}
		back, err := curve.Celsius(ohms)
		if err != nil || math.Abs(back-celsius) > 1e-6 {
			t.Fatalf("%g °C is %g Ω and comes back as %g °C (%v)", celsius, ohms, back, err)
		}
	})
}

func TestReadingInOhmsBecomesATemperatureBand(t *testing.T) {
	t.Parallel()
	curve := must(expected.NewBeta(10e3, 3977))(t)
	got := must(expected.CelsiusOf(curve, measurements.Interval{Lo: 3500, Hi: 3600}))(t)
	cold, warm := must(curve.Celsius(3600))(t), must(curve.Celsius(3500))(t)
	if got.Lo != cold || got.Hi != warm || !(got.Lo < got.Hi) {
		t.Errorf("%v, want %g to %g", got, cold, warm)
	}
	for _, bad := range []measurements.Interval{{Lo: 0, Hi: 5}, {Lo: 3500, Hi: math.Inf(1)}} {
		if v, err := expected.CelsiusOf(curve, bad); err == nil {
			t.Errorf("%v gave %v", bad, v)
		}
	}
}

func TestBadSensorNumbersAreRefusedByName(t *testing.T) {
	t.Parallel()
	_, beta := expected.NewBeta(10e3, 39.77)
	_, r25 := expected.NewBeta(-1, 3977)
	_, platinum := expected.NewPlatinum(0)
	_, order := expected.NewSteinhartHart3(8.76741e-8, -2.34125e-4, 1.129148e-3)
	_, flat := expected.NewSteinhartHart3(1e-3, 0, 0)
	_, four := expected.NewSteinhartHart4(0, 2.6e-4, 2.6e-6, 6.4e-8, 10e3)
	_, ratio := expected.NewSteinhartHart4(3.354016e-3, 2.569850e-4, 2.620131e-6, 6.383091e-8, 0)
	_, class := expected.PlatinumAt(must(expected.NewPlatinum(100))(t), 20, "D", 0)
	_, hot := must(expected.NewPlatinum(100))(t).Ohms(851)
	_, cold := must(expected.NewPlatinum(100))(t).Celsius(5)
	_, sea := must(expected.NewBeta(10e3, 3977))(t).Ohms(-273.15)
	for _, c := range []struct {
		err  error
		want string
	}{
		{beta, "beta is 39.77 K: expected 1000 to 10000 K"},
		{r25, "resistance at 25 °C is -1 Ω"},
		{platinum, "resistance at 0 °C is 0 Ω"},
		{order, "check their order and exponents"},
		{flat, "check their order and exponents"},
		{four, "do not give a temperature"},
		{ratio, "resistance at 25 °C is 0 Ω"},
		{class, `class "D": expected AA, A, B or C`},
		{hot, "expected -200 to 850 °C"},
		{cold, "lies between 18.52 and 390.48 Ω"}, // IEC 60751 table ends
		{sea, "temperature is -273.15 °C: expected -100 to 400 °C"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.want) {
			t.Errorf("got %v, want %s", c.err, c.want)
		}
	}
}

func TestPlatinumClassMovesTheLimits(t *testing.T) {
	t.Parallel()
	curve := must(expected.NewPlatinum(1000))(t)
	at := func(celsius float64) float64 { return must(curve.Ohms(celsius))(t) }
	b := must(expected.PlatinumAt(curve, 37, "B", 0))(t)
	if math.Abs(*b.Low-at(37-0.485)) > 1e-6 || math.Abs(*b.High-at(37+0.485)) > 1e-6 {
		t.Errorf("class B at 37 °C: %g to %g", *b.Low, *b.High)
	}
	wide := must(expected.PlatinumAt(curve, 37, "B", 2))(t)
	if !(*wide.Low < *b.Low && *wide.High > *b.High) || !strings.Contains(wide.Source, "IEC 60751, 1000 Ω at 0 °C, class B") {
		t.Errorf("with a thermometer of 2 K: %g to %g, %s", *wide.Low, *wide.High, wide.Source)
	}
}
