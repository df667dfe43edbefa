package expected

import (
	"errors"
	"fmt"
	"math"
)

// inputTolerance is the source of rated power and its limits.
const inputTolerance = "IEC 60335-1 cl. 10.1 Table 1 (from memory)"

// ColdFactor is a sheathed element's resistance cold over that at working
// temperature: makers' test procedures use 0.98.
const ColdFactor = 0.98

// Appliance is how IEC 60335-1 sorts appliances for power input.
type Appliance string

// The kinds of appliance.
const (
	Heating Appliance = "heating"        // and combined appliances
	Motor   Appliance = "motor-operated" // no lower limit above 25 W
)

// PowerInput is what an appliance may take at its rated voltage, in W.
func PowerInput(kind Appliance, watts float64) (Expected, error) {
	if err := positive("rated power", watts, "W"); err != nil {
		return Expected{}, err
	}
	plus, minus, err := powerTolerance(kind, watts)
	if err != nil {
		return Expected{}, err
	}
	e := Expected{Nominal: number(watts), High: number(watts + plus), Unit: "W", Source: inputTolerance}
	if !math.IsInf(minus, 1) {
		e.Low = number(watts - minus)
	}
	return e, nil
}

// powerTolerance gives the limits in W above and below; minus is +Inf for none.
func powerTolerance(kind Appliance, watts float64) (plus, minus float64, err error) {
	switch {
	case kind != Heating && kind != Motor:
		return 0, 0, fmt.Errorf("appliance %q: expected %q or %q", string(kind), Heating, Motor)
	case watts <= 25:
		return 0.2 * watts, 0.2 * watts, nil
	case kind == Heating && watts <= 200:
		return 0.1 * watts, 0.1 * watts, nil
	case kind == Heating:
		return math.Max(0.05*watts, 20), 0.1 * watts, nil
	case watts <= 300:
		return 0.2 * watts, math.Inf(1), nil
	}
	return math.Max(0.15*watts, 60), math.Inf(1), nil
}

// ErrRatedVoltage is returned when an element's rated voltage is not given: the
// same watts are two different elements at 230 and 240 V.
var ErrRatedVoltage = errors.New("rated voltage is missing: a 3 kW element rated 240 V is 19.2 Ω, rated 230 V 17.6 Ω; read the plate")

// Element is the resistance of a heating element from its plate: rated watts and
// rated volts, at working temperature, in Ω. Limits follow from the power limits
// of IEC 60335-1. Without a rated voltage it gives [ErrRatedVoltage].
func Element(watts, ratedVolts float64) (Expected, error) {
	if ratedVolts == 0 {
		return Expected{}, ErrRatedVoltage
	}
	power, err := PowerInput(Heating, watts)
	if err = firstError(err, positive("rated voltage", ratedVolts, "V")); err != nil {
		return Expected{}, err
	}
	square := ratedVolts * ratedVolts
	return Expected{
		Low:     number(square / *power.High),
		Nominal: number(square / watts),
		High:    number(square / *power.Low),
		Unit:    "Ω", Source: inputTolerance + fmt.Sprintf(", %g W at %g V", watts, ratedVolts),
		Note: fmt.Sprintf("at working temperature; cold it may read 2 %% less, down to %.4g Ω", ColdFactor*square / *power.High),
	}, nil
}

// ElementCold is [Element] for a reading on the cold, disconnected element: the
// low limit is lower by [ColdFactor].
func ElementCold(watts, ratedVolts float64) (Expected, error) {
	e, err := Element(watts, ratedVolts)
	if err != nil {
		return e, err
	}
	e.Low = number(*e.Low * ColdFactor)
	e.Note = "low limit taken 2 % lower for a cold element"
	return e, nil
}

// ElementAmps is the current of that element at the volts just read, in A.
func ElementAmps(watts, ratedVolts, volts float64) (Expected, error) {
	ohms, err := Element(watts, ratedVolts)
	if err = firstError(err, positive("voltage", volts, "V")); err != nil {
		return Expected{}, err
	}
	return Expected{
		Low: number(volts / *ohms.High), Nominal: number(volts / *ohms.Nominal), High: number(volts / *ohms.Low),
		Unit: "A", Source: ohms.Source,
	}, nil
}
