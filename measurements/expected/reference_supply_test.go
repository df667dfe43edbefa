package expected_test

import (
	"math"
	"strings"

	"faultwalk/measurements/expected"
)

func checkSupply(r *row) {
	name := r.text("quantity")
	ours := map[string]expected.Expected{
		"LV supply voltage single phase (statutory, at supply terminals)": expected.SupplyVoltage(),
		"LV supply voltage three phase":                                   expected.SupplyThreePhase(),
		"frequency (statutory)":                                           expected.SupplyFrequency(),
		"predecessor range":                                               expected.SupplyVoltage(),
		"pre-1995 UK range":                                               expected.WithinPercent(240, 6, 6, "V", ""),
		"EN 50160 10-min mean, 95 % of a week":                            named(r, expected.Supply(), "95 % of a week, 10-minute means"),
		"EN 50160 10-min mean, 100 % of time":                             named(r, expected.Supply(), "all of the time, 10-minute means"),
	}
	e, ok := ours[name]
	if !ok {
		r.Fatalf("no expectation for %q", name)
	}
	r.equals("nominal", *e.Nominal, 1e-9)
	r.equals("lower", *e.Low, 0.05)
	r.equals("upper", *e.High, 0.05)
	if r.text("unit") != e.Unit {
		r.Errorf("unit %q", e.Unit)
	}
}

func checkElement(r *row) {
	watts, volts := r.number("rated_power_W"), r.number("rated_voltage_V")
	e, err := expected.Element(watts, volts)
	r.ok(err)
	r.equals("R_nominal_ohm", *e.Nominal, 6e-4)
	r.equals("R_min_ohm", *e.Low, 6e-4)
	r.equals("R_max_ohm", *e.High, 6e-4)
	amps, err := expected.ElementAmps(watts, volts, 230)
	r.ok(err)
	r.equals("current_at_230V_A", *amps.Nominal, 6e-3)
	r.equals("power_at_230V_W", *amps.Nominal*230, 0.6)
}

// checkPowerInput reads the bands and tolerances out of the words and tries both
// ends of each band.
func checkPowerInput(r *row) {
	kinds := map[string][]expected.Appliance{
		"all":                  {expected.Heating, expected.Motor},
		"heating and combined": {expected.Heating},
		"motor-operated":       {expected.Motor},
	}
	if strings.HasPrefix(r.text("appliance_type"), "sheathed element") {
		return
	}
	edges, plus := r.numbers("rated_power_band_W"), r.numbers("plus")
	for _, kind := range kinds[r.text("appliance_type")] {
		for _, watts := range inBand(r.text("rated_power_band_W"), edges) {
			e, err := expected.PowerInput(kind, watts)
			r.ok(err)
			above := plus[0] * watts / 100
			if len(plus) > 1 {
				above = math.Max(above, plus[1])
			}
			if math.Abs(*e.High-watts-above) > 1e-6 {
				r.Errorf("%s, %g W: high %g, want %g", kind, watts, *e.High, watts+above)
			}
			checkMinus(r, e, watts)
		}
	}
}

func checkMinus(r *row, e expected.Expected, watts float64) {
	minus := r.numbers("minus")
	switch {
	case len(minus) == 0 && e.Low != nil:
		r.Errorf("%g W: low %g, want none", watts, *e.Low)
	case len(minus) == 1 && (e.Low == nil || math.Abs(*e.Low-watts*(1-minus[0]/100)) > 1e-6):
		r.Errorf("%g W: low %v, want -%g %%", watts, e.Low, minus[0])
	}
}

// inBand gives powers at the ends of a band such as "> 25 and <= 200".
func inBand(band string, edges []float64) []float64 {
	switch {
	case strings.HasPrefix(band, "<="):
		return []float64{1, edges[0]}
	case len(edges) == 2:
		return []float64{edges[0] + 0.01, 0.1*edges[0] + 0.9*edges[1], edges[1]}
	case len(edges) == 1:
		return []float64{edges[0] + 0.01, 9000}
	}
	return nil
}
