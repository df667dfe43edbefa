package expected_test

import (
	"math"
	"strings"

	"faultwalk/measurements"
	"faultwalk/measurements/expected"
)

func checkRS485(r *row) {
	e := named(r, expected.RS485(), r.text("parameter"))
	scale := 1.0
	if r.text("unit") == "kohm" {
		scale = 1e-3
	}
	limit := func(column string, v *float64) {
		if v == nil && e.Nominal != nil {
			v = e.Nominal // printed as both limits
		}
		if !r.given(column) {
			return
		}
		if v == nil {
			r.Fatalf("%s: we give none", column)
		}
		r.equals(column, *v*scale, math.Max(1e-9, 5e-3*math.Abs(*v*scale)))
	}
	if e.Nominal != nil {
		e.Low, e.High = nil, nil
	}
	limit("min", e.Low)
	limit("max", e.High)
}

func checkContinuity(r *row) {
	name := r.text("item")
	switch name {
	case "lead null required":
		return // a thing to do
	case "R1+R2 example 20 m 2.5/1.5":
		e, err := expected.R1PlusR2(expected.Conductor{Area: 2.5, Class: 1}, expected.Conductor{Area: 1.5, Class: 1}, 20, 20)
		r.ok(err)
		r.equals("value", *e.Nominal, 6e-4)
		return
	}
	e := named(r, expected.Continuity(), name)
	want := r.numbers("value")
	if strings.Contains(r.text("value"), "Mohm") {
		want[0] *= 1e6
	}
	if e.Low != nil && *e.Low != want[0] {
		r.Errorf("low %g, the table has %v", *e.Low, want)
	}
	if e.High != nil && *e.High != want[len(want)-1] {
		r.Errorf("high %g, the table has %v", *e.High, want)
	}
}

// checkMeter holds the default kit to what is known of meters of its kinds.
func checkMeter(r *row) {
	find := func(m measurements.Mode, q measurements.Quantity) measurements.ModeSpec {
		for _, i := range measurements.DefaultKit().Instruments {
			if s, ok := i.Spec(m, q); ok && (m != measurements.ModeContinuity || i.ID == "installation-tester") {
				return s
			}
		}
		r.Fatalf("no %s in the kit", m)
		return measurements.ModeSpec{}
	}
	half := func(a measurements.Accuracy, q measurements.Quantity, v float64) float64 {
		s := measurements.ModeSpec{Quantity: q, Accuracy: a, Ranges: []measurements.Range{{Max: 600, Resolution: 0.1}}}
		wide := s.Widen(measurements.Reading{Quantity: q, Value: measurements.Point(v)})
		return (wide.Hi - wide.Lo) / 2
	}
	atMost := func(s measurements.ModeSpec, v float64) {
		if percent := 100 * s.Error(v) / v; percent > r.numbers("value")[0] {
			r.Errorf("±%.0f %% at %g", percent, v)
		}
	}
	switch name := r.text("item"); name {
	case "DMM voltage input resistance (typical)":
		r.equals("value", find(measurements.HighImpedance, measurements.ACVolts).InputOhms/1e6, 1e-9)
	case "LoZ mode":
		checkLowImpedanceSpan(r)
	case "example 230.0 V on 1.0 % + 3 counts (0.1 V)":
		checkHalfWidth(r, half(measurements.Accuracy{Percent: 1, Counts: 3}, measurements.ACVolts, 230))
	case "example 17.6 ohm on 0.9 % + 2 counts (0.1)":
		checkHalfWidth(r, half(measurements.Accuracy{Percent: 0.9, Counts: 2}, measurements.Ohms, 17.6))
	case "insulation tester operating uncertainty":
		atMost(find(measurements.ModeInsulation, measurements.Insulation), 1e6)
	case "continuity tester operating uncertainty":
		atMost(find(measurements.ModeContinuity, measurements.Continuity), 0.2)
	case "continuity tester current":
		if low := *named(r, expected.Continuity(), "test current").Low; low != r.numbers("value")[0] {
			r.Errorf("%g mA", low)
		}
	case "continuity tester open-circuit voltage":
		e, want := named(r, expected.Continuity(), "open-circuit voltage"), r.numbers("value")
		if *e.Low != want[0] || *e.High != want[1] {
			r.Errorf("%g to %g V", *e.Low, *e.High)
		}
	}
}

func checkHalfWidth(r *row, got float64) {
	if want := r.numbers("value")[0]; math.Abs(got-want) > 6e-3 {
		r.Errorf("±%g, the example has ±%g", got, want)
	}
}

// checkLowImpedanceSpan: what is sold as low impedance runs from 3 to 400 kΩ, and
// only the low end acts as one.
func checkLowImpedanceSpan(r *row) {
	acts := func(kilohms float64) measurements.Mode {
		return measurements.ModeSpec{Mode: measurements.LowImpedance, InputOhms: kilohms * 1e3}.ActsAs()
	}
	span := r.numbers("value")
	if acts(span[0]) != measurements.LowImpedance || acts(span[1]) != measurements.HighImpedance {
		r.Errorf("%g kΩ acts as %s, %g kΩ as %s", span[0], acts(span[0]), span[1], acts(span[1]))
	}
}

// checkDecisionRule tries the rule's own words at points round the limit.
func checkDecisionRule(r *row) {
	const limit, width = 10.0, 1.0
	zones := map[string]func(y float64) bool{
		"y <= TL":          func(y float64) bool { return y <= limit },
		"y > TL":           func(y float64) bool { return y > limit },
		"y <= TL - w":      func(y float64) bool { return y <= limit-width },
		"y > TL - w":       func(y float64) bool { return y > limit-width },
		"TL - w < y <= TL": func(y float64) bool { return limit-width < y && y <= limit },
		"TL < y <= TL + w": func(y float64) bool { return limit < y && y <= limit+width },
		"y > TL + w":       func(y float64) bool { return y > limit+width },
	}
	in := func(column string, y float64) bool {
		words := r.text(column)
		zone, ok := zones[words]
		if words != "" && !ok {
			r.Fatalf("%s: %q is not understood", column, words)
		}
		return ok && zone(y)
	}
	for y := limit - 2*width; y <= limit+2*width; y += width / 4 {
		half := width
		if r.text("rule") == "simple acceptance" {
			half = 0
		}
		verdict := measurements.Interval{Lo: y - half, Hi: y + half}.Against(measurements.Interval{Lo: math.Inf(-1), Hi: limit})
		undecided := in("conditional_pass", y) || in("conditional_fail", y)
		binary := r.text("conditional_pass") == ""
		// Two shared edges fall to the cautious side here: y = TL + w still
		// straddles, because a closed interval touches the limit.
		switch {
		case in("pass", y) != (verdict == measurements.Inside):
			r.Errorf("y %g: %s", y, verdict)
		case !binary && undecided != (verdict == measurements.Straddles):
			r.Errorf("y %g: %s, want undecided %v", y, verdict, undecided)
		case in("fail", y) && verdict == measurements.Inside:
			r.Errorf("y %g: %s", y, verdict)
		}
	}
}
