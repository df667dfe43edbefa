package expected_test

import (
	"faultwalk/measurements/expected"
)

// references lists every file with the number of its rows.
func references() map[string]reference {
	return map[string]reference{
		"supply.csv":                  {7, checkSupply},
		"conductor_resistance.csv":    {9, checkConductor},
		"copper_temperature.csv":      {20, checkCopper},
		"r1_r2.csv":                   {17, checkR1R2},
		"mv_per_a_m.csv":              {33, checkDrop},
		"voltage_drop_limits.csv":     {4, checkDropLimit},
		"zs_max.csv":                  {33, checkLoop},
		"heater_resistance.csv":       {10, checkElement},
		"power_input_tolerance.csv":   {6, checkPowerInput},
		"ntc_100k_linux.csv":          {34, checkBeta(100e3, 4311, "beta_only_ohm", 2)},
		"ntc_10k_b3380_linux.csv":     {34, checkSuperseded},
		"ntc_10k_b3435.csv":           {33, checkBeta(10e3, 3435, "beta_only_ohm", 0.06)},
		"ntc_10k_b3977.csv":           {39, checkFourTerm},
		"ntc_5k_20k_50k_computed.csv": {25, checkFamilies},
		"pt1000.csv":                  {20, checkPlatinum},
		"pt_coefficients.csv":         {8, checkPlatinumCoefficient},
		"steinhart_hart_examples.csv": {21, checkSteinhartHart},
		"insulation.csv":              {8, checkInsulation},
		"rcd.csv":                     {15, checkRCD},
		"mcb_bands.csv":               {7, checkBreakerBand},
		"rs485.csv":                   {17, checkRS485},
		"continuity.csv":              {12, checkContinuity},
		"meter_specs.csv":             {17, checkMeter},
		"ghost_voltage_examples.csv":  {15, checkGhost},
		"cable_capacitance.csv":       {9, checkCapacitance},
		"decision_rules.csv":          {3, checkDecisionRule},
	}
}

// exceptions are the cells that are not reproduced, each with its reason.
func exceptions() []exception {
	return []exception{
		{"mcb_bands.csv", "reference ambient", "time", "an ambient temperature, and no time: nothing here depends on it"},
		{"steinhart_hart_examples.csv", "coefficient fit", "temperature_C", "the coefficients as published are rounded and miss their own points by up to 0.8 K; the exact refit is checked instead, and the misses the note states"},
		{"ntc_10k_b3380_linux.csv", "", "superseded_resistance_ohm", "values their own source withdrew; checked only to differ from the corrected ones"},
		{"power_input_tolerance.csv", "sheathed element", "plus", "one maker's own limit at the works, narrower than the standard a plate is held to"},
		{"power_input_tolerance.csv", "sheathed element", "minus", "as above"},
		{"rcd.csv", "S type", "I_dn_mA", "the ratings delayed devices are sold in; nothing is judged by it"},
		{"meter_specs.csv", "voltage detector", "value", "the number of a standard"},
		{"meter_specs.csv", "loop tester", "value", "no loop tester is among the modes"},
		{"meter_specs.csv", "RCD tester", "value", "no RCD tester is among the modes"},
		{"meter_specs.csv", "ghost reading", "value", "single observations; the divider is checked in the ghost table"},
		{"meter_specs.csv", "coverage", "value", "how a maker states uncertainty, and no number of ours"},
		{"meter_specs.csv", "rated operating", "value", "where an instrument holds its accuracy: not modelled"},
	}
}

// named finds a row of one of our tables.
func named(r *row, table []expected.Named, name string) expected.Expected {
	r.Helper()
	for _, n := range table {
		if n.Name == name {
			return n.Expected
		}
	}
	r.Fatalf("no row named %q", name)
	return expected.Expected{}
}
