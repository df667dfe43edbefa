package expected

// InsulationRow is one row of the insulation limits: the circuit in Name, the
// least resistance in Low, in Ω.
type InsulationRow struct {
	Named
	TestVolts float64 `json:"test_volts"` // V dc
}

// Insulation lists the least insulation resistance by circuit and test voltage.
// New dry work reads far more, and a cold pass does not clear what leaks hot.
func Insulation() []InsulationRow {
	const table64 = "BS 7671:2018 Table 64 (reg 643.3.2)"
	row := func(name string, volts, megohms float64, source string) InsulationRow {
		return InsulationRow{Named{name, Expected{Low: number(megohms * 1e6), Unit: "Ω", Source: source}}, volts}
	}
	return []InsulationRow{
		row("SELV and PELV", 250, 0.5, table64),
		row("up to and including 500 V except SELV/PELV", 500, 1, table64),
		row("above 500 V", 1000, 1, table64),
		row("SELV to LV separation test", 500, 1, "BS 7671:2018 reg 643.4 (value from memory)"),
		row("equipment connected after second fix: L+N to E", 250, 1, "BS 7671:2018+A2 reg 643.3.3 (limit from memory)"),
		row("historic limits (16th ed. Table 71A)", 500, 0.5, "BS 7671:2001 Table 71A"),
		row("historic SELV", 250, 0.25, "BS 7671:2001 Table 71A"),
		row("instrument rule: test voltage maintained at", 500, testerLoad(500)/1e6, "IEC 61557-2, rated voltage × 1000 Ω/V"),
	}
}

// testerLoad is the resistance down to which an insulation tester holds its
// voltage, in Ω: it must drive 1 mA (IEC 61557-2).
func testerLoad(volts float64) float64 { return volts * 1000 }
