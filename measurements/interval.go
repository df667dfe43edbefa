package measurements

import (
	"encoding/json"
	"fmt"
	"math"
)

// Interval is the closed range a value lies in, in SI units or °C. Hi may be
// +Inf; Lo is +Inf as well only for OL, which stands above every number, and -Inf
// only where something is allowed without a lower limit.
type Interval struct{ Lo, Hi float64 }

// Point is the interval that holds v alone.
func Point(v float64) Interval { return Interval{v, v} }

// IsPoint reports whether the interval is one value.
func (i Interval) IsPoint() bool { return i.Lo == i.Hi }

// Contains reports whether v lies in the interval, its ends included.
func (i Interval) Contains(v float64) bool { return i.Lo <= v && v <= i.Hi }

// Within reports whether all of i lies inside outer.
func (i Interval) Within(outer Interval) bool { return outer.Lo <= i.Lo && i.Hi <= outer.Hi }

// Overlaps reports whether i and j share at least one value.
func (i Interval) Overlaps(j Interval) bool { return i.Lo <= j.Hi && j.Lo <= i.Hi }

// Verdict is how an interval stands to what is allowed.
type Verdict string

// The verdicts. Only Inside and Outside decide anything.
const (
	Inside    Verdict = "inside"    // the whole interval is allowed
	Straddles Verdict = "straddles" // part of it is: the meter cannot tell
	Outside   Verdict = "outside"   // none of it is
)

// Against judges a widened reading against what is allowed. It is the guarded
// rule of ILAC-G8:09/2019 4.2.3 with the interval's half-width as guard band:
// pass and fail only where the meter's error cannot turn the answer, and both
// conditional zones are Straddles.
func (i Interval) Against(allowed Interval) Verdict {
	switch {
	case i.Within(allowed):
		return Inside
	case i.Overlaps(allowed):
		return Straddles
	}
	return Outside
}

// clamp cuts the interval to the domain of a quantity.
func (i Interval) clamp(domain Interval) Interval {
	return Interval{math.Min(math.Max(i.Lo, domain.Lo), domain.Hi), math.Max(math.Min(i.Hi, domain.Hi), domain.Lo)}
}

// MarshalJSON writes [lo, hi] with "inf" or "-inf" for an infinite end: JSON has no
// infinity and a journal must not fail on OL.
func (i Interval) MarshalJSON() ([]byte, error) {
	return json.Marshal([2]any{end(i.Lo), end(i.Hi)})
}

// UnmarshalJSON reads what MarshalJSON wrote; errors name what was found.
func (i *Interval) UnmarshalJSON(data []byte) error {
	var ends []any
	if err := json.Unmarshal(data, &ends); err != nil || len(ends) != 2 {
		return fmt.Errorf("interval %.40q: expected [low, high]", data)
	}
	lo, okLo := endOf(ends[0])
	hi, okHi := endOf(ends[1])
	switch {
	case !okLo || !okHi:
		return fmt.Errorf("interval %.40q: expected numbers, \"inf\" or \"-inf\"", data)
	case lo > hi:
		return fmt.Errorf("interval %.40q: the low end is above the high end", data)
	}
	*i = Interval{lo, hi}
	return nil
}

func end(v float64) any {
	switch {
	case math.IsInf(v, 1):
		return "inf"
	case math.IsInf(v, -1):
		return "-inf"
	}
	return v
}

func endOf(v any) (float64, bool) {
	switch v := v.(type) {
	case float64:
		return v, true
	case string:
		switch v {
		case "inf":
			return math.Inf(1), true
		case "-inf":
			return math.Inf(-1), true
		}
	}
	return 0, false
}
