package journal

import (
	"fmt"
	"math"
)

// writtenValue is a Value in its line: without an end that is infinite.
type writtenValue struct {
	As     string   `json:"as"`
	Mode   string   `json:"mode"`
	Meter  string   `json:"meter"`
	Typed  string   `json:"typed"`
	Low    *float64 `json:"low,omitempty"`
	High   *float64 `json:"high,omitempty"`
	Open   bool     `json:"open,omitempty"`
	Moving bool     `json:"moving,omitempty"`
}

// MarshalJSON writes the value, leaving out an end of +Inf. An end that is no
// number or -Inf is refused: no meter shows it.
func (v Value) MarshalJSON() ([]byte, error) {
	low, err := written("low", v.Low)
	if err != nil {
		return nil, err
	}
	high, err := written("high", v.High)
	if err != nil {
		return nil, err
	}
	return compact(writtenValue{v.As, v.Mode, v.Meter, v.Typed, low, high, v.Open, v.Moving})
}

// UnmarshalJSON reads what MarshalJSON writes; an end that is not there is +Inf.
func (v *Value) UnmarshalJSON(text []byte) error {
	var w writtenValue
	if err := strictly(text, &w); err != nil {
		return err
	}
	*v = Value{w.As, w.Mode, w.Meter, w.Typed, orInfinite(w.Low), orInfinite(w.High), w.Open, w.Moving}
	return nil
}

func written(end string, v float64) (*float64, error) {
	switch {
	case math.IsInf(v, 1):
		return nil, nil
	case math.IsNaN(v) || math.IsInf(v, -1):
		return nil, fmt.Errorf("%s is %v; expected a number, or +Inf above the meter's range", end, v)
	}
	return &v, nil
}

func orInfinite(v *float64) float64 {
	if v == nil {
		return math.Inf(1)
	}
	return *v
}
