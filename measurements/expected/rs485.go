package expected

import (
	"fmt"
	"math"
)

// Values of TIA/EIA-485-A.
const (
	terminator = 120.0   // Ω, one at each end of the pair
	unitLoad   = 12000.0 // Ω, the least input resistance of one receiver
)

const eia485 = "TIA/EIA-485-A"

// RS485Pair is the resistance across a dead data pair, in Ω, with so many
// terminators fitted and receivers of one unit load connected. With none of
// either the pair is open and nothing is expected but OL.
func RS485Pair(terminators, receivers int) (Expected, error) {
	if terminators < 0 || receivers < 0 {
		return Expected{}, fmt.Errorf("%d terminators and %d receivers: expected 0 or more of each", terminators, receivers)
	}
	conductance := float64(terminators)/terminator + float64(receivers)/unitLoad
	e := Expected{Unit: "Ω", Source: fmt.Sprintf("%s, %d of 120 Ω and %d of 12 kΩ in parallel", eia485, terminators, receivers)}
	if conductance == 0 {
		e.Note = "OL: nothing lies across the pair"
		return e, nil
	}
	e.Nominal = number(1 / conductance)
	return e, nil
}

// RS485Idle is the voltage across an idle pair, in V, held apart by two bias
// resistors of so many Ω each from a supply of so many V.
func RS485Idle(volts, biasOhms float64, terminators int) (Expected, error) {
	pair, err := RS485Pair(terminators, 0)
	if err = firstError(err, positive("supply", volts, "V"), positive("bias resistor", biasOhms, "Ω")); err != nil {
		return Expected{}, err
	}
	load := math.Inf(1)
	if pair.Nominal != nil {
		load = *pair.Nominal
	}
	idle := volts
	if !math.IsInf(load, 1) {
		idle = volts * load / (load + 2*biasOhms)
	}
	return Expected{
		Low: number(receiverThreshold), Nominal: number(idle), Unit: "V",
		Source: fmt.Sprintf("%s, divider of %g V over 2 × %g Ω and the terminators", eia485, volts, biasOhms),
	}, nil
}

// receiverThreshold is what a receiver needs to be sure of the level, in V.
const receiverThreshold = 0.2

// RS485Bias is the largest bias resistor, in Ω each, that still holds a terminated
// idle pair at the receiver threshold.
func RS485Bias(volts float64) (Expected, error) {
	const pair = terminator / 2
	if !(volts > receiverThreshold) {
		return Expected{}, fmt.Errorf("supply is %g V: expected more than %g V", volts, receiverThreshold)
	}
	return Expected{
		High: number((volts/receiverThreshold - 1) * pair / 2), Unit: "Ω",
		Source: fmt.Sprintf("%s, %g V to leave 200 mV across 60 Ω", eia485, volts),
	}, nil
}

// RS485 lists the limits of a data pair. A pair referred to mains neutral, as many
// split machines have, is none of this: it has its own plant values.
func RS485() []Named {
	rows := []Named{
		band("driver differential output, open circuit", 1.5, 6, "V"),
		band("driver differential output, loaded", 1.5, 5, "V"),
		atMost("driver short-circuit current", 250, "mA"),
		atMost("driver rise time", 30, "% of bit"),
		band("driver common-mode output", -1, 3, "V"),
		band("receiver threshold", -receiverThreshold, receiverThreshold, "V"),
		band("receiver common-mode range", -7, 12, "V"),
		atLeast("receiver input resistance (1 unit load)", unitLoad, "Ω"),
		atMost("unit loads", 32, "UL"),
		atLeast("idle bias needed", receiverThreshold, "V"),
		band("Modbus serial polarisation resistors", 450, 650, "Ω"),
	}
	both, _ := RS485Pair(2, 0)
	one, _ := RS485Pair(1, 0)
	full, _ := RS485Pair(2, 32)
	bias, _ := RS485Bias(5)
	idle, _ := RS485Idle(5, 680, 2)
	return append(rows,
		Named{"termination each end", one},
		Named{"resistance A-B, both terminators, power off", both},
		Named{"resistance A-B, one terminator missing", one},
		Named{"resistance A-B with 32 UL (12k each) plus two terminators", full},
		Named{"bias resistors 5 V supply, each, for 200 mV across 60 ohm", bias},
		Named{"idle biased line, two terminators, 680 ohm pair at 5 V", idle},
	)
}

func band(name string, low, high float64, unit string) Named {
	return Named{name, Expected{Low: number(low), High: number(high), Unit: unit, Source: eia485}}
}

func atMost(name string, high float64, unit string) Named {
	return Named{name, Expected{High: number(high), Unit: unit, Source: eia485}}
}

func atLeast(name string, low float64, unit string) Named {
	return Named{name, Expected{Low: number(low), Unit: unit, Source: eia485}}
}
