package measurements

import (
	"fmt"
	"math"
)

// Accuracy is a meter's limit of error as data sheets give it: ± (percent of
// reading + counts of the last digit).
type Accuracy struct {
	Percent float64 `json:"percent"` // of the reading
	Counts  float64 `json:"counts"`  // of the range's resolution
}

// Range is one range of a mode, in the SI unit of its quantity or in °C.
type Range struct {
	Max        float64 `json:"max"`        // largest value shown; above it the meter goes up a range, or shows OL
	Resolution float64 `json:"resolution"` // one count
}

// ModeSpec is one mode of one instrument for one quantity.
type ModeSpec struct {
	Mode      Mode     `json:"mode"`
	Quantity  Quantity `json:"quantity"`
	InputOhms float64  `json:"input_ohms,omitempty"` // volts modes: what the meter puts across the probes
	Accuracy  Accuracy `json:"accuracy"`
	Ranges    []Range  `json:"ranges"` // ascending; the meter chooses the smallest that fits
}

// ActsAs is the mode that counts, whatever the dial says: above
// [LowImpedanceLimit] a loading mode is only its unloaded sister.
func (s ModeSpec) ActsAs() Mode {
	if s.InputOhms <= LowImpedanceLimit {
		return s.Mode
	}
	switch s.Mode {
	case LowImpedance:
		return HighImpedance
	case TwoPoleLoaded:
		return TwoPoleUnloaded
	}
	return s.Mode
}

// Top is the largest value the mode shows; anything above is OL.
func (s ModeSpec) Top() float64 {
	if len(s.Ranges) == 0 {
		return s.Quantity.Domain().Hi
	}
	return s.Ranges[len(s.Ranges)-1].Max
}

// Error is the most the mode may be wrong at v, in the unit of v: percent of
// reading plus counts of the range v falls in.
func (s ModeSpec) Error(v float64) float64 {
	return math.Abs(v)*s.Accuracy.Percent/100 + s.Accuracy.Counts*s.rangeOf(v).Resolution
}

// Rounded is v cut to what the display can show: whole counts of the range it
// falls in, in the unit of v. Above [ModeSpec.Top], where the meter shows OL, it
// is v itself.
func (s ModeSpec) Rounded(v float64) float64 {
	r := s.rangeOf(v)
	if r.Resolution <= 0 || math.Abs(v) > r.Max {
		return v
	}
	return Significant(math.Round(v/r.Resolution)*r.Resolution, 9)
}

func (s ModeSpec) rangeOf(v float64) Range {
	for _, r := range s.Ranges {
		if math.Abs(v) <= r.Max {
			return r
		}
	}
	if len(s.Ranges) == 0 {
		return Range{}
	}
	return s.Ranges[len(s.Ranges)-1]
}

// Widen gives the interval the true value lies in: each end moved outwards by
// [ModeSpec.Error], inside the quantity's domain. OL becomes everything from the
// top of the largest range; the open end of ">20M" or "<1" stays open.
func (s ModeSpec) Widen(r Reading) Interval {
	if r.Open {
		return Interval{s.Top(), math.Inf(1)}
	}
	domain := r.Quantity.Domain()
	wide := r.Value
	if wide.Lo != domain.Lo || r.Value.IsPoint() {
		wide.Lo -= s.Error(wide.Lo)
	}
	if wide.Hi != domain.Hi || r.Value.IsPoint() {
		wide.Hi += s.Error(wide.Hi)
	}
	return wide.clamp(domain)
}

// Parse is the package's [Parse] for this mode, which also refuses a number above
// the top of its ranges, where the meter would have shown OL.
func (s ModeSpec) Parse(typed string) (Reading, error) {
	r, err := Parse(s.Quantity, typed)
	if err != nil || r.Open {
		return r, err
	}
	if lo, top := r.Value.Lo, s.Top(); lo > top || r.Value.Hi > top && r.Value.Hi != s.Quantity.Domain().Hi {
		refusal := refuse(s.Quantity, typed, fmt.Sprintf("%s is above the range of this meter (%s)", quoted(typed), s.Quantity.Format(top)))
		refusal.Beyond = &r
		return Reading{}, refusal
	}
	return r, nil
}
