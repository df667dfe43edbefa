package expected_test

import (
	"math"
	"strings"

	"faultwalk/measurements"
	"faultwalk/measurements/expected"
)

func checkConductor(r *row) {
	area := r.number("csa_mm2")
	perKm := func(class int, tinned bool, celsius float64) float64 {
		e, err := expected.Core(expected.Conductor{Area: area, Class: class, Tinned: tinned}, 1000, celsius)
		r.ok(err)
		return *e.Nominal
	}
	r.equals("class1_plain_ohm_per_km_20C", perKm(1, false, 20), 1e-9)
	r.equals("class2_plain_ohm_per_km_20C", perKm(2, false, 20), 1e-9)
	r.equals("class5_plain_ohm_per_km_20C", perKm(5, false, 20), 1e-9)
	r.equals("class5_tinned_ohm_per_km_20C", perKm(5, true, 20), 1e-9)
	r.equals("class1_plain_at_70C_x1.20_ohm_per_km", perKm(1, false, 70), 6e-4)
	annealed := perKm(1, false, 20) * expected.CopperFactor(expected.AlphaAnnealed, 70)
	r.equals("class1_plain_at_70C_x1.1965_ohm_per_km", annealed, 6e-4)
}

func checkCopper(r *row) {
	celsius := r.number("temperature_C")
	factor := expected.CopperFactor(expected.AlphaCable, celsius)
	r.equals("factor_alpha_0.004", factor, 6e-5)
	r.equals("factor_alpha_0.00393", expected.CopperFactor(expected.AlphaAnnealed, celsius), 6e-5)
	r.equals("published_Kt_to_20C", 1/factor, 6e-4)
	r.equals("one_over_Kt", factor, 1e-3) // the inverse of a number of three decimals
}

func checkR1R2(r *row) {
	line := expected.Conductor{Area: r.number("line_mm2"), Class: 1}
	protective := expected.Conductor{Area: r.number("cpc_mm2"), Class: 1}
	e, err := expected.R1PlusR2(line, protective, 1, 20)
	r.ok(err)
	r.equals("r1_plus_r2_mohm_per_m_20C", *e.Nominal*1000, 1e-9)
	r.equals("sum_check_mohm_per_m", *e.Nominal*1000, 1e-9)
}

// publishedApart are the two areas whose tabulated drop is not the conductor's
// own resistance rounded to two figures: the table rounds 43.44 up and 7.39 down.
func publishedApart(area, published float64) bool {
	return area == 1 && published == 44 || area == 6 && published == 7.3
}

func checkDrop(r *row) {
	cable := map[string]expected.Cable{"4D5": expected.Twin, "4D1B": expected.SingleCore, "4E1B": expected.HotSingle, "4E4B": expected.Armoured, "4F3B": expected.Flex}[r.text("bs7671_table")]
	area := r.number("csa_mm2")
	e, err := expected.Drop(cable, area, 1, 1)
	r.ok(err)
	published := *e.Nominal * 1000
	r.equals("published_mV_per_A_per_m", published, 1e-9)

	celsius, err := cable.WorkingCelsius()
	r.ok(err)
	conductor := expected.Conductor{Area: area, Class: 1}
	if cable == expected.Flex {
		conductor = expected.Conductor{Area: area, Class: 5, Tinned: true}
	}
	computed, err := expected.DropAt(conductor, 1, 1, celsius)
	r.ok(err)
	millivolts := *computed.Nominal * 1000
	r.equals("formula_2xR20xk_mV_per_A_per_m", millivolts, 6e-3)
	if rounds := measurements.Significant(millivolts, 2) == published; rounds == publishedApart(area, published) {
		r.Errorf("%.4g mV/A/m from resistance, %g in the table: rounds to it %v", millivolts, published, rounds)
	}
}

func checkDropLimit(r *row) {
	supply := strings.TrimSuffix(r.text("supply"), " LV")
	e := expected.DropLimit(supply, r.text("use"))
	r.equals("limit_V_at_230V", *e.High, 1e-9)
	r.equals("limit_percent", *e.High/2.3, 1e-9)
	if ours := named(r, expected.DropLimits(), supply+" supply, "+r.text("use")); *ours.High != *e.High {
		r.Errorf("listed as %g V", *ours.High)
	}
}

func checkGhost(r *row) {
	length, perMetre, picofarads := r.number("parallel_length_m"), r.number("coupling_pF_per_m"), r.number("C_pF")
	if length*perMetre != picofarads {
		r.Errorf("%g m × %g pF/m is not %g pF", length, perMetre, picofarads)
	}
	ohms := r.number("meter_input_ohm")
	e, err := expected.Ghost(picofarads*1e-12, ohms)
	r.ok(err)
	r.equals("reading_V", *e.High, 6e-3)
	r.equals("current_uA", *e.High/ohms*1e6, 6e-4)
	r.equals("Xc_ohm", 1/(2*math.Pi*50*picofarads*1e-12), 1e-3*r.number("Xc_ohm"))
}

func checkCapacitance(r *row) {
	c, err := expected.PairCapacitance(r.number("conductor_d_mm"), r.number("spacing_D_mm"), r.number("effective_er"))
	r.ok(err)
	r.equals("C_pF_per_m", c*1e12, 0.06)
}
