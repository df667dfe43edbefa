package rehearse

import (
	"math"
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/prove"
)

// reading is what one check gave in a walk.
type reading struct {
	check  *trees.BoundCheck
	values []value // one for each probe
	using  []int   // which of the ways to read each probe
	answer string
	moving bool
	tried  int // times it was taken again because it decided nothing
}

// value is what one probe gave: what the meter shows, and the interval it stands for.
type value struct {
	read   bool
	shown  measurements.Reading
	within measurements.Interval
	mode   string
	meter  string
}

func (r *reading) whole() bool {
	for _, v := range r.values {
		if !v.read {
			return false
		}
	}
	return true
}

func (r *reading) modes() string {
	var b strings.Builder
	for _, v := range r.values {
		b.WriteString(v.mode + ",")
	}
	return b.String()
}

// box gives the intervals of all probes; one not read yet is left open.
func (r *reading) box() []prove.Interval {
	out := make([]prove.Interval, 0, len(r.values))
	for _, v := range r.values {
		if !v.read {
			out = append(out, prove.Interval{Lo: math.NaN(), Hi: math.NaN()})
			continue
		}
		out = append(out, trees.Within(v.within))
	}
	return out
}

// facts says of each probe that was read whether it moves.
func (r *reading) facts() (out []prove.Fact) {
	for i, p := range r.check.Probes {
		if r.values[i].read {
			out = append(out, trees.Moves(p, r.moving))
		}
	}
	return out
}

// middle is the number that an expectation takes from a reading.
func (r *reading) middle() (float64, bool) {
	for i := len(r.values) - 1; i >= 0; i-- {
		if v := r.values[i]; v.read {
			return (v.shown.Value.Lo + v.shown.Value.Hi) / 2, true
		}
	}
	return 0, false
}

// String writes a reading as a person would say it.
func (r *reading) String() string {
	if len(r.check.Probes) == 0 {
		return r.answer
	}
	var parts []string
	for i, p := range r.check.Probes {
		if v := r.values[i]; v.read {
			text := v.shown.String()
			if len(r.check.Probes) > 1 {
				text = p.As + " " + text
			}
			parts = append(parts, text)
		}
	}
	return strings.Join(parts, ", ")
}
