package measurements

// Mode is how a meter is set, in the words used in the trees.
type Mode string

// The modes a check may ask for.
const (
	HighImpedance   Mode = "high impedance"    // ac volts, about 10 MΩ: shows ghosts, harmless to earth
	LowImpedance    Mode = "low impedance"     // ac volts, about 3 kΩ: collapses ghosts; live to neutral only
	TwoPoleUnloaded Mode = "two-pole unloaded" // volts on a two-pole tester, load button not pressed
	TwoPoleLoaded   Mode = "two-pole loaded"   // volts with the load button pressed; live to neutral only
	ModeDCVolts     Mode = "dc volts"
	ModeOhms        Mode = "ohms"
	ModeContinuity  Mode = "continuity"
	ModeInsulation  Mode = "insulation"
	Clamp           Mode = "clamp"          // ac amps round one core
	MilliampClamp   Mode = "milliamp clamp" // small currents and leakage
	Thermometer     Mode = "thermometer"
)

// LowImpedanceLimit is the input resistance, in ohms, above which a mode sold as
// low impedance no longer collapses a ghost and counts as high impedance: inputs
// of 200 to 400 kΩ leave most of it standing. Common practice, no source.
const LowImpedanceLimit = 30_000

// ModesFor lists the modes that read a quantity, in a fixed order; none for an
// unknown quantity.
func ModesFor(q Quantity) []Mode {
	switch q {
	case ACVolts:
		return []Mode{HighImpedance, LowImpedance, TwoPoleUnloaded, TwoPoleLoaded}
	case DCVolts:
		return []Mode{ModeDCVolts, TwoPoleUnloaded}
	case Ohms:
		return []Mode{ModeOhms}
	case Continuity:
		return []Mode{ModeContinuity}
	case Insulation:
		return []Mode{ModeInsulation}
	case Amps:
		return []Mode{Clamp, MilliampClamp}
	case Leakage:
		return []Mode{MilliampClamp}
	case Celsius:
		return []Mode{Thermometer}
	}
	return nil
}

// Reads reports whether the mode can read the quantity at all.
func (m Mode) Reads(q Quantity) bool {
	for _, mode := range ModesFor(q) {
		if mode == m {
			return true
		}
	}
	return false
}

// Known reports whether m is one of the modes above.
func (m Mode) Known() bool {
	for _, q := range Quantities() {
		if m.Reads(q) {
			return true
		}
	}
	return false
}

// Loads reports whether the mode draws enough current to trip an RCD or lift a
// case when used to earth: 3 kΩ passes about 80 mA.
func (m Mode) Loads() bool { return m == LowImpedance || m == TwoPoleLoaded }
