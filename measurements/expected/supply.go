package expected

// esqcr is the source of the statutory supply limits.
const esqcr = "ESQCR 2002 (SI 2002/2665) reg 27, at the supply terminals"

// SupplyVoltage is the statutory low-voltage supply, live to neutral: 230 V +10 %
// -6 %, in V.
func SupplyVoltage() Expected {
	return WithinPercent(230, 6, 10, "V", esqcr)
}

// SupplyThreePhase is the same between two lines of a three-phase supply: 400 V.
func SupplyThreePhase() Expected {
	return WithinPercent(400, 6, 10, "V", esqcr)
}

// SupplyFrequency is the declared frequency ±1 %, in Hz (limits from memory).
func SupplyFrequency() Expected {
	return WithinPercent(50, 1, 1, "Hz", esqcr)
}

// Supply lists the supply limits a reading may be held to.
func Supply() []Named {
	return []Named{
		{"single phase, live to neutral", SupplyVoltage()},
		{"three phase, line to line", SupplyThreePhase()},
		{"frequency", SupplyFrequency()},
		{"95 % of a week, 10-minute means", WithinPercent(230, 10, 10, "V", "EN 50160")},
		{"all of the time, 10-minute means", WithinPercent(230, 15, 10, "V", "EN 50160")},
	}
}
