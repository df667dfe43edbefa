package command

import (
	"fmt"
	"math"
	"math/cmplx"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
)

// probed is one reading, as JSON has it. Values are in the unit of the quantity
// and as the network has them; shown is what the meter makes of one. A value that
// is over range or not read at all is null.
type probed struct {
	Plant   string        `json:"plant"`
	Fault   string        `json:"fault,omitempty"`
	Check   string        `json:"check,omitempty"`
	Answer  string        `json:"answer,omitempty"`
	Read    []probedValue `json:"read,omitempty"`
	Moving  bool          `json:"moving,omitempty"`
	Moved   []string      `json:"moved,omitempty"`
	Tripped []string      `json:"tripped,omitempty"`
	CaseAt  float64       `json:"case_volts,omitempty"`
	Live    bool          `json:"live,omitempty"`
	Stands  float64       `json:"live_volts,omitempty"` // the most that stands at a probe where ohms were to be read
	Healthy []string      `json:"healthy,omitempty"`
}

type probedValue struct {
	From      string   `json:"from"`
	To        string   `json:"to,omitempty"`
	Meter     string   `json:"meter"`
	Mode      string   `json:"mode"`
	Value     *float64 `json:"value"`
	Shown     string   `json:"shown,omitempty"`
	OverRange bool     `json:"over_range,omitempty"`
	Unit      string   `json:"unit"`
	Amps      float64  `json:"meter_amps"`
	Open      *float64 `json:"without_meter,omitempty"`
	Behind    *float64 `json:"behind_ohms,omitempty"`
	Why       []string `json:"why,omitempty"`
}

// reads takes in what a probe gave.
func (v *probedValue) reads(x float64, spec measurements.ModeSpec, shown string) {
	v.Shown = shown
	if v.OverRange = math.IsInf(x, 0) || math.Abs(x) > spec.Top(); !math.IsInf(x, 0) {
		v.Value = &x
	}
}

// because says where a reading comes from.
func (v *probedValue) because(why plant.Why) {
	open := why.Open
	v.Open = &open
	if z := cmplx.Abs(why.Behind); !math.IsInf(z, 0) {
		v.Behind = &z
	}
	for _, l := range why.Lost {
		state := "stands open"
		if !math.IsInf(l.Ohms, 1) {
			state = "has " + written(l.Ohms, "Ω")
		}
		v.Why = append(v.Why, fmt.Sprintf("%s %s, %s across it", l.Words, state, written(l.Volts, "V")))
	}
}
