package expected_test

import (
	"slices"
	"strconv"
	"strings"

	"faultwalk/measurements/expected"
)

func checkLoop(r *row) {
	breaker := expected.Breaker{Curve: r.text("type"), Amps: r.number("rating_A")}
	seconds := r.number("disconnection_time_s")
	e, err := breaker.MaximumLoop(seconds)
	r.ok(err)
	amps, err := breaker.OperatingAmps(seconds)
	r.ok(err)
	r.equals("Ia_A", amps, 1e-9)
	r.equals("zs_max_ohm", *e.High, 1e-9)
	r.equals("zs_unrounded_ohm", expected.LoopFormula(amps), 6e-5)
	r.optional("zs_80pct_of_tabulated_ohm", *e.EightyPercent, 0.0051)
	r.equals("zs_80pct_of_unrounded_ohm", 0.8*expected.LoopFormula(amps), 0.0051)
}

func checkInsulation(r *row) {
	name := r.text("circuit")
	for _, ours := range expected.Insulation() {
		if ours.Name != name {
			continue
		}
		r.equals("test_voltage_V_dc", ours.TestVolts, 1e-9)
		words := r.numbers("min_resistance_Mohm")
		if want := words[len(words)-1] * 1e6; *ours.Low != want { // "1 mA load => 0.5 Mohm"
			r.Errorf("%g Ω, the table has %g", *ours.Low, want)
		}
		return
	}
	r.Fatalf("no row named %q", name)
}

func checkRCD(r *row) {
	name := r.text("item")
	switch {
	case strings.HasPrefix(name, "Zs TT"):
		e, err := expected.RCDEarthLoop(r.number("I_dn_mA"))
		r.ok(err)
		r.equals("zs_max_ohm", *e.High, 1e-9)
	case name == "general, no-trip test":
		r.equals("multiple_of_I_dn", *named(r, expected.RCDTrip(), "Type AC/A sinusoidal").Low, 1e-9)
	case strings.HasPrefix(name, "Type A"):
		e, want := named(r, expected.RCDTrip(), name), r.numbers("multiple_of_I_dn")
		if *e.Low != want[0] || *e.High != want[1] {
			r.Errorf("%g to %g, the table has %v", *e.Low, *e.High, want)
		}
	default:
		checkRCDTime(r, name)
	}
}

func checkRCDTime(r *row, name string) {
	multiple := r.number("multiple_of_I_dn")
	for _, ours := range expected.RCDTimes() {
		if ours.Name != name || ours.Multiple != multiple {
			continue
		}
		r.equals("max_ms", *ours.High, 1e-9)
		if r.given("min_ms") != (ours.Low != nil) {
			r.Errorf("low limit %v", ours.Low)
		} else if ours.Low != nil {
			r.equals("min_ms", *ours.Low, 1e-9)
		}
		return
	}
	r.Fatalf("no row for %q at %g times", name, multiple)
}

func checkBreakerBand(r *row) {
	name := r.text("type_or_test")
	if name == "reference ambient" {
		return
	}
	e := named(r, expected.BreakerBands(), name)
	r.equals("multiple_low_x_In", *e.Low, 1e-9)
	r.equals("multiple_high_x_In", *e.High, 1e-9)
	said := []float64{*e.Low, *e.High}
	for _, text := range numbersIn.FindAllString(e.Note, -1) {
		v, err := strconv.ParseFloat(text, 64)
		r.ok(err)
		said = append(said, v)
	}
	for _, v := range append(r.numbers("time"), r.numbers("result")...) {
		if !slices.Contains(said, v) {
			r.Errorf("the time or current %g is not in our note %q", v, e.Note)
		}
	}
}
