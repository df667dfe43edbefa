package expected_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"faultwalk/measurements/expected"
)

func TestElementNeedsItsRatedVoltage(t *testing.T) {
	t.Parallel()
	_, err := expected.Element(3000, 0)
	if !errors.Is(err, expected.ErrRatedVoltage) || !strings.Contains(err.Error(), "19.2 Ω") || !strings.Contains(err.Error(), "read the plate") {
		t.Errorf("got %v", err)
	}
	e := must(expected.Element(3000, 240))(t)
	if *e.Nominal != 19.2 {
		t.Errorf("a 3 kW element rated 240 V is %g Ω", *e.Nominal)
	}
}

func TestColdElementMayReadTwoPercentLess(t *testing.T) {
	t.Parallel()
	// 3 kW rated 240 V: 17.9 to 21.3 Ω cold. Common practice, no source.
	e := must(expected.ElementCold(3000, 240))(t)
	if math.Abs(*e.Low-17.92) > 0.01 || math.Abs(*e.High-21.33) > 0.01 {
		t.Errorf("%g to %g Ω", *e.Low, *e.High)
	}
}

func TestElementCurrentFollowsTheVoltsJustRead(t *testing.T) {
	t.Parallel()
	e := must(expected.ElementAmps(3000, 240, 230))(t)
	if math.Abs(*e.Nominal-11.98) > 0.005 || !(*e.Low < *e.Nominal && *e.Nominal < *e.High) {
		t.Errorf("%g, %g, %g A", *e.Low, *e.Nominal, *e.High)
	}
}

func TestCoreThereAndBackIsTwice(t *testing.T) {
	t.Parallel()
	flex := expected.Conductor{Area: 0.75, Class: expected.UsualClass(0.75)}
	one := must(expected.Core(flex, 10, 20))(t)
	both := must(expected.CoreThereAndBack(flex, 10, 20))(t)
	if *one.Nominal != 0.26 || *both.Nominal != 0.52 || *both.High != 0.52 || both.Low != nil {
		t.Errorf("%g and %g Ω, want 0.26 and 0.52", *one.Nominal, *both.Nominal)
	}
}

func TestBreakerIsReadAsPeopleWriteIt(t *testing.T) {
	t.Parallel()
	for _, text := range []string{"C32", "c32", "C 32", "C-32", "C32A", "32C", "32 A C", "type C 32 A", " C32 "} {
		b, err := expected.ParseBreaker(text)
		if err != nil || b.String() != "C32" {
			t.Errorf("%q: %v, %v", text, b, err)
		}
	}
	for text, want := range map[string]string{
		"":     "expected curve and rating, like B16, C32 or D6",
		"32":   "expected curve and rating",
		"C":    "expected curve and rating",
		"C33":  "rating 33 A is not made; expected one of 3, 6, 10",
		"C0":   "rating 0 A is not made",
		"C3.2": "rating 3.2 A is not made",
		"C..":  "is not made",
		"K16":  `curve "K": expected B, C or D`,
	} {
		if b, err := expected.ParseBreaker(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v; want %s", text, b, err, want)
		}
	}
}

func TestLoopIsTheTabulatedMaximumWith80PercentBeside(t *testing.T) {
	t.Parallel()
	e := must(must(expected.ParseBreaker("C32"))(t).MaximumLoop(0.4))(t)
	if *e.High != 0.68 || *e.EightyPercent != 0.544 || e.Low != nil || e.Nominal != nil {
		t.Errorf("%+v", e)
	}
	if _, err := (expected.Breaker{Curve: "C", Amps: 32}).MaximumLoop(1); err == nil || !strings.Contains(err.Error(), "expected 0.4 (final circuits) or 5") {
		t.Errorf("got %v", err)
	}
	if _, err := (expected.Breaker{Curve: "Z", Amps: 32}).MaximumLoop(5); err == nil {
		t.Error("curve Z accepted")
	}
}

func TestTripBandIsInAmps(t *testing.T) {
	t.Parallel()
	e := must(expected.Breaker{Curve: "C", Amps: 32}.TripBand())(t)
	if *e.Low != 160 || *e.High != 320 || e.Unit != "A" {
		t.Errorf("%+v", e)
	}
}

func TestWrongCableNumbersNameTheField(t *testing.T) {
	t.Parallel()
	fail := func(_ expected.Expected, err error) error { return err }
	solid := expected.Conductor{Area: 2.5, Class: 1}
	for _, c := range []struct {
		err  error
		want string
	}{
		{fail(expected.Core(expected.Conductor{Area: 3, Class: 1}, 10, 20)), "area 3 mm²: expected one of 0.5, 0.75, 1, 1.5"},
		{fail(expected.Core(expected.Conductor{Area: 1, Class: 3}, 10, 20)), "class 3: expected 1 (solid), 2 (stranded) or 5 (flexible)"},
		{fail(expected.Core(expected.Conductor{Area: 1, Class: 1, Tinned: true}, 10, 20)), "only class 5"},
		{fail(expected.Core(solid, -1, 20)), "length is -1 m"},
		{fail(expected.Core(solid, 1, 700)), "temperature is 700 °C"},
		{fail(expected.R1PlusR2(solid, expected.Conductor{Area: 7, Class: 1}, 1, 20)), "area 7 mm²"},
		{fail(expected.Drop("string", 2.5, 1, 1)), `cable "string": expected one of [twin`},
		{fail(expected.Drop(expected.Twin, 0.75, 1, 1)), "area 0.75 mm²: table 4D5 has 1, 1.5, 2.5"},
		{fail(expected.Drop(expected.Twin, 2.5, 1, 0)), "current is 0 A"},
		{fail(expected.DropAt(solid, 1, math.Inf(1), 20)), "current is +Inf A"},
		{fail(expected.Element(-5, 230)), "rated power is -5 W"},
		{fail(expected.Element(3000, -230)), "rated voltage is -230 V"},
		{fail(expected.ElementAmps(3000, 230, 0)), "voltage is 0 V"},
		{fail(expected.PowerInput("steam", 100)), `appliance "steam": expected "heating" or "motor-operated"`},
		{fail(expected.RCDEarthLoop(0)), "rated residual current is 0 mA"},
		{fail(expected.RS485Pair(-1, 0)), "-1 terminators"},
		{fail(expected.RS485Bias(0.1)), "supply is 0.1 V"},
		{fail(expected.RS485Idle(5, 0, 2)), "bias resistor is 0 Ω"},
		{fail(expected.Ghost(0, 1)), "capacitance is 0 F"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.want) {
			t.Errorf("got %v, want %s", c.err, c.want)
		}
	}
	if _, err := expected.PairCapacitance(2, 1, 4); err == nil || !strings.Contains(err.Error(), "spacing 1 mm") {
		t.Errorf("got %v", err)
	}
}

func TestDataPairWithNothingAcrossItIsOpen(t *testing.T) {
	t.Parallel()
	e := must(expected.RS485Pair(0, 0))(t)
	if e.Nominal != nil || !strings.Contains(e.Note, "OL") {
		t.Errorf("%+v", e)
	}
	idle := must(expected.RS485Idle(5, 680, 0))(t)
	if *idle.Nominal != 5 {
		t.Errorf("an unterminated pair idles at %g V", *idle.Nominal)
	}
}

func TestMissingLimitIsNullInJSONAndInfiniteInJudging(t *testing.T) {
	t.Parallel()
	e := must(expected.Breaker{Curve: "B", Amps: 16}.MaximumLoop(0.4))(t)
	text := string(must(json.Marshal(e))(t))
	for _, want := range []string{`"low":null`, `"nominal":null`, `"high":2.73`, `"eighty_percent":2.184`, `"unit":"Ω"`, `"source":"BS 7671`} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in %s", want, text)
		}
	}
	if i := e.Interval(); !math.IsInf(i.Lo, -1) || i.Hi != 2.73 {
		t.Errorf("%v", i)
	}
	if i := must(expected.RS485Pair(1, 0))(t).Interval(); i.Lo != 120 || i.Hi != 120 {
		t.Errorf("%v", i)
	}
	if i := expected.SupplyVoltage().Interval(); i.Lo != 216.2 || i.Hi != 253 {
		t.Errorf("%v", i)
	}
}

func TestEveryRowSaysWhereItIsFrom(t *testing.T) {
	t.Parallel()
	var all []expected.Named
	for _, r := range expected.Insulation() {
		all = append(all, r.Named)
	}
	for _, r := range expected.RCD() {
		all = append(all, r.Named)
	}
	all = append(all, expected.Supply()...)
	all = append(all, expected.DropLimits()...)
	all = append(all, expected.BreakerBands()...)
	all = append(all, expected.RS485()...)
	all = append(all, expected.Continuity()...)
	for _, r := range all {
		if r.Name == "" || r.Source == "" || r.Unit == "" {
			t.Errorf("%+v", r)
		}
	}
}
