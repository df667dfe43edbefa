package expected

// Continuity lists what low-resistance tests give and what the tester must do.
// Values of practice are from memory, no source.
func Continuity() []Named {
	row := func(name string, low, high *float64, unit, source string) Named {
		return Named{name, Expected{Low: low, High: high, Unit: unit, Source: source}}
	}
	const practice = "common practice, no source"
	return []Named{
		row("test current", number(200), nil, "mA", "BS EN 61557-4"),
		row("open-circuit voltage", number(4), number(24), "V", "BS EN 61557-4 (from memory)"),
		row("resolution at low range", nil, number(0.01), "Ω", "BS EN 61557-4 (from memory)"),
		row("lead resistance pair (1.5 m unfused)", number(0.02), number(0.1), "Ω", practice),
		row("lead resistance pair, fused 500 mA", number(0.5), number(3), "Ω", practice),
		row("main bonding continuity indicative", nil, number(0.05), "Ω", "GN3 (from memory)"),
		row("multimeter beeper threshold", number(20), number(50), "Ω", practice),
		row("good closed contact", nil, number(0.5), "Ω", practice),
		row("thermal cut-out closed", nil, number(1), "Ω", practice),
		row("open contact", number(1e6), nil, "Ω", practice),
	}
}
