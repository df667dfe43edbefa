package expected_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"faultwalk/measurements/expected"
)

// checkBeta checks a published table against one B value: the resistance the
// equation gives, and by how much it is out in temperature.
func checkBeta(r25, b float64, column string, within float64) func(*row) {
	return func(r *row) {
		curve, err := expected.NewBeta(r25, b)
		r.ok(err)
		celsius := r.number("temperature_C")
		ohms, err := curve.Ohms(celsius)
		r.ok(err)
		r.equals(column, ohms, math.Max(within, ohms*5e-4))
		fooled, err := curve.Celsius(r.number("resistance_ohm"))
		r.ok(err)
		r.equals("beta_temp_error_K", fooled-celsius, 0.012)
	}
}

func checkSuperseded(r *row) {
	checkBeta(10e3, 3380, "beta_only_3380_ohm", 0.06)(r)
	superseded := r.number("superseded_resistance_ohm")
	if same := superseded == r.number("resistance_ohm"); same != (r.number("temperature_C") == 25) {
		r.Error("the superseded value is the corrected one")
	}
}

// fourTerm3977 is the published curve of a 10 kΩ thermistor with B25/85 3977 K,
// scaled to another resistance at 25 °C.
func fourTerm3977(t *testing.T, r25 float64) expected.SteinhartHart {
	t.Helper()
	curve, err := expected.NewSteinhartHart4(3.354016e-3, 2.569850e-4, 2.620131e-6, 6.383091e-8, r25)
	if err != nil {
		t.Fatal(err)
	}
	return curve
}

func checkFourTerm(r *row) {
	checkBeta(10e3, 3977, "beta_only_3977_ohm", 0.06)(r)
	curve := fourTerm3977(r.T, 10e3)
	celsius := r.number("temperature_C")
	ohms, err := curve.Ohms(celsius)
	r.ok(err)
	r.equals("extended_steinhart_hart_ohm", ohms, 0.06)
	fooled, err := curve.Celsius(r.number("resistance_ohm"))
	r.ok(err)
	r.equals("sh_temp_error_K", fooled-celsius, 0.0051)
}

func checkFamilies(r *row) {
	celsius := r.number("temperature_C")
	ohms := func(c expected.Curve, err error) float64 {
		r.ok(err)
		v, err := c.Ohms(celsius)
		r.ok(err)
		return v
	}
	beta := func(r25, b float64) float64 { c, err := expected.NewBeta(r25, b); return ohms(c, err) }
	r.equals("5k_B3977_SH_ohm", ohms(fourTerm3977(r.T, 5e3), nil), 0.06)
	r.equals("20k_B3977_SH_ohm", ohms(fourTerm3977(r.T, 20e3), nil), 0.06)
	// The coefficients of the 4190 K family are from memory; the column agrees.
	c4190, err := expected.NewSteinhartHart4(3.354016e-3, 2.460382e-4, 3.405377e-6, 1.034240e-7, 50e3)
	r.equals("50k_B4190_SH_ohm", ohms(c4190, err), 0.12)
	r.equals("5k_B3470_beta_ohm", beta(5e3, 3470), 0.06)
	r.equals("20k_B3950_beta_ohm", beta(20e3, 3950), 0.06)
	r.equals("50k_B3950_beta_ohm", beta(50e3, 3950), 0.06)
}

func checkPlatinum(r *row) {
	celsius := r.number("temperature_C")
	for _, c := range []struct {
		r0     float64
		column string
		within float64
	}{
		{1000, "pt1000_formula_ohm", 6e-5}, {100, "pt100_formula_ohm", 6e-6},
		{1000, "pt1000_published_ohm", 6e-4}, {1000, "pt1000_published_1dp_ohm", 0.051},
	} {
		curve, err := expected.NewPlatinum(c.r0)
		r.ok(err)
		ohms, err := curve.Ohms(celsius)
		r.ok(err)
		r.optional(c.column, ohms, c.within)
		back, err := curve.Celsius(ohms)
		r.ok(err)
		if math.Abs(back-celsius) > 1e-6 {
			r.Errorf("%g Ω comes back as %g °C", ohms, back)
		}
	}
	for class, column := range map[expected.PlatinumClass]string{"A": "class_A_tolerance_K", "B": "class_B_tolerance_K"} {
		kelvin, err := class.Kelvin(celsius)
		r.ok(err)
		r.equals(column, kelvin, 6e-4)
	}
}

// checkPlatinumCoefficient takes the coefficients back out of the resistances.
func checkPlatinumCoefficient(r *row) {
	ratio := func(celsius float64) float64 {
		curve, err := expected.NewPlatinum(1)
		r.ok(err)
		v, err := curve.Ohms(celsius)
		r.ok(err)
		return v
	}
	b := ((ratio(200)-1)/200 - (ratio(100)-1)/100) / 100
	a := (ratio(100)-1)/100 - 100*b
	switch name := r.text("coefficient"); name {
	case "A":
		r.equals("value", a, 1e-12)
	case "B":
		r.equals("value", b, 1e-12)
	case "C":
		r.equals("value", (ratio(-100)-(1-100*a+1e4*b))/(-200*-1e6), 1e-15)
	case "alpha":
		r.equals("value", (ratio(100)-1)/100, 6e-9)
	default:
		terms := r.numbers("value")
		for _, celsius := range []float64{-40, 0, 100} {
			kelvin, err := expected.PlatinumClass(strings.TrimPrefix(name, "class ")).Kelvin(celsius)
			r.ok(err)
			if want := terms[0] + terms[1]*math.Abs(celsius); math.Abs(kelvin-want) > 1e-9 {
				r.Errorf("%g K at %g °C, want %g", kelvin, celsius, want)
			}
		}
	}
}

var coefficient = regexp.MustCompile(`[ABCD]1?=(-?[0-9.]+e-?[0-9]+|-?[0-9.]+)`)

// coefficients reads A=… B=… C=… out of a text.
func coefficients(r *row, text string) []float64 {
	var found []float64
	for _, m := range coefficient.FindAllStringSubmatch(text, -1) {
		v, err := strconv.ParseFloat(m[1], 64)
		r.ok(err)
		found = append(found, v)
	}
	return found
}

func checkSteinhartHart(r *row) {
	ohms := r.number("resistance_ohm")
	c := coefficients(r, r.text("coefficients"))
	switch {
	case strings.HasPrefix(r.text("example"), "coefficient fit"):
		checkRoundedFit(r, ohms, c)
	case len(c) == 4:
		curve, err := expected.NewSteinhartHart4(c[0], c[1], c[2], c[3], 10e3)
		r.ok(err)
		checkCurve(r, curve, ohms)
	default:
		curve, err := expected.NewSteinhartHart3(c[0], c[1], c[2])
		r.ok(err)
		checkCurve(r, curve, ohms)
	}
}

func checkCurve(r *row, curve expected.Curve, ohms float64) {
	celsius, err := curve.Celsius(ohms)
	r.ok(err)
	r.equals("temperature_C", celsius, 6e-4)
	back, err := curve.Ohms(celsius)
	r.ok(err)
	if math.Abs(back-ohms) > 1e-6*ohms {
		r.Errorf("%g °C comes back as %g Ω, not %g", celsius, back, ohms)
	}
}

// checkRoundedFit checks what the note says of coefficients published too short.
func checkRoundedFit(r *row, ohms float64, published []float64) {
	note := r.text("note")
	rounded, err := expected.NewSteinhartHart3(published[0], published[1], published[2])
	r.ok(err)
	got, err := rounded.Celsius(ohms)
	r.ok(err)
	stated, err := strconv.ParseFloat(regexp.MustCompile(`give (-?[0-9.]+) C`).FindStringSubmatch(note)[1], 64)
	r.ok(err)
	if math.Abs(got-stated) > 6e-3 {
		r.Errorf("the published coefficients give %g °C, the note says %g", got, stated)
	}
	refit := coefficients(r, note)
	exact, err := expected.NewSteinhartHart3(refit[0], refit[1], refit[2])
	r.ok(err)
	got, err = exact.Celsius(ohms)
	r.ok(err)
	r.equals("temperature_C", got, 1e-3)
}
