package measurements

// DefaultKit is what an installer with a heat-pump round usually carries. Input
// impedances and accuracies are typical of their kind, from memory, unless a
// line says otherwise; the user's own meters go in the config file.
func DefaultKit() Kit {
	return Kit{
		Instruments: []Instrument{multimeter(), twoPole(), installationTester(), clampMeter(), milliampClamp(), thermometer()},
		ProvingUnit: true,
	}
}

func multimeter() Instrument {
	volts := []Range{{0.6, 0.0001}, {6, 0.001}, {60, 0.01}, {600, 0.1}, {1000, 1}}
	return Instrument{ID: "multimeter", Name: "multimeter with a low-impedance mode", Modes: []ModeSpec{
		{HighImpedance, ACVolts, 10e6, Accuracy{1, 3}, volts},
		{LowImpedance, ACVolts, 3e3, Accuracy{2, 3}, []Range{{600, 0.1}, {1000, 1}}},
		{ModeDCVolts, DCVolts, 10e6, Accuracy{0.5, 2}, volts},
		{ModeOhms, Ohms, 0, Accuracy{0.9, 2}, []Range{{600, 0.1}, {6e3, 1}, {60e3, 10}, {600e3, 100}, {6e6, 1e3}, {60e6, 10e3}}},
		{ModeContinuity, Continuity, 0, Accuracy{0.9, 3}, []Range{{600, 0.1}}},
	}}
}

// The input of the default kit's two-pole tester in Ω, its load button not
// pressed and pressed. Testers state 100 kΩ to 1 MΩ and 7 to 30 kΩ, from memory.
const (
	TesterOhms = 300e3
	LoadedOhms = 10e3
)

// twoPole is a voltage detector to IEC 61243-3. That standard asks for a clear
// indication and not for accuracy; ±(3 % + 5 counts), 0.1 V up to 100 V and 1 V
// above, is what digital types commonly state, from memory.
func twoPole() Instrument {
	volts := []Range{{100, 0.1}, {1000, 1}}
	return Instrument{ID: "two-pole", Name: "two-pole voltage tester with a load button", Modes: []ModeSpec{
		{TwoPoleUnloaded, ACVolts, TesterOhms, Accuracy{3, 5}, volts},
		{TwoPoleLoaded, ACVolts, LoadedOhms, Accuracy{3, 5}, volts},
		{TwoPoleUnloaded, DCVolts, TesterOhms, Accuracy{3, 5}, volts},
	}}
}

// installationTester reads low ohms with at least 200 mA and insulation at 250 and
// 500 V dc. IEC 61557-2 and -4 allow ±30 % operating uncertainty; the figures
// are the better ones commonly stated, from memory.
func installationTester() Instrument {
	return Instrument{ID: "installation-tester", Name: "insulation and continuity tester", Modes: []ModeSpec{
		{ModeInsulation, Insulation, 0, Accuracy{3, 3}, []Range{{20e6, 10e3}, {200e6, 100e3}, {1e9, 1e6}}},
		{ModeContinuity, Continuity, 0, Accuracy{3, 3}, []Range{{20, 0.01}, {200, 0.1}, {2000, 1}}},
	}}
}

func clampMeter() Instrument {
	return Instrument{ID: "clamp", Name: "clamp meter", Modes: []ModeSpec{
		{Clamp, Amps, 0, Accuracy{2, 5}, []Range{{60, 0.01}, {400, 0.1}}},
	}}
}

func milliampClamp() Instrument {
	small := []Range{{0.006, 1e-6}, {0.06, 1e-5}, {0.6, 1e-4}, {6, 1e-3}, {60, 1e-2}}
	return Instrument{ID: "milliamp-clamp", Name: "milliamp clamp", Modes: []ModeSpec{
		{MilliampClamp, Leakage, 0, Accuracy{1.5, 5}, small},
		{MilliampClamp, Amps, 0, Accuracy{1.5, 5}, small},
	}}
}

func thermometer() Instrument {
	return Instrument{ID: "thermometer", Name: "thermometer with a probe", Modes: []ModeSpec{
		{Thermometer, Celsius, 0, Accuracy{0.5, 10}, []Range{{200, 0.1}, {1372, 1}}},
	}}
}
