package rehearse

import "fmt"

// Gate is something that a rehearsal has to hold, and whether it does.
type Gate struct {
	Name  string `json:"gate"`
	Found string `json:"found"`
	Holds bool   `json:"holds"`
}

// The gates, as shares of all cases but those passed on.
const (
	leastExact    = 0.85 // of the written faults, by count and by weight
	leastFound    = 0.95 // exact or at a group that stands
	mostWrongly   = 0.003
	sweptWrongly  = 0.02
	sweptReferred = 0.12 // and unresolved
)

// gates judges a report by what was rehearsed. Nobody may be hurt, ever. No
// walk may be wrong whose hands can measure; under noise and in the sweep a few
// may. The shares of exact ends are asked of the whole list of faults, walked by
// the engineer.
func (o Options) gates(r *Report) []Gate {
	f := r.Figures(nil)
	out := []Gate{{"nobody is hurt", fmt.Sprint(f.Of[Unsafe].Cases), f.Of[Unsafe].Cases == 0}}
	switch {
	case o.Sweep:
		aside := f.Of[Referred].Share + f.Of[Unresolved].Share
		return append(out, atMost("wrong", f.Of[Wrong].Share, sweptWrongly), atMost("referred and unresolved", aside, sweptReferred))
	case o.Noise > 0:
		m := r.Figures(measures)
		return append(out, atMost("wrong", m.Of[Wrong].Share, mostWrongly))
	}
	wrong := r.Figures(measures).Of[Wrong].Cases
	out = append(out, Gate{"no walk is wrong", fmt.Sprint(wrong), wrong == 0})
	if !o.whole() {
		return out
	}
	e, g := f.Of[Exact], f.Of[Grouped]
	return append(out, atLeast("exact", e.Share, e.Weighted, leastExact), atLeast("exact or grouped", e.Share+g.Share, e.Weighted+g.Weighted, leastFound))
}

// whole says whether every fault was walked by the engineer, and nothing else.
func (o Options) whole() bool {
	return len(o.Plants) == 0 && len(o.Symptoms) == 0 && o.Fault == "" && !o.Forgotten && len(o.Persons) == 1
}

// measures says whether the hands of a case have instruments.
func measures(c *Case) bool { return c.measures }

func atMost(what string, share, most float64) Gate {
	return Gate{fmt.Sprintf("%s at most %g %%", what, 100*most), fmt.Sprintf("%.2f %%", 100*share), share <= most}
}

func atLeast(what string, share, weighted, least float64) Gate {
	return Gate{fmt.Sprintf("%s at least %g %%", what, 100*least), fmt.Sprintf("%.1f %% by count, %.1f %% by weight", 100*share, 100*weighted),
		share >= least && weighted >= least}
}

// Holds says whether every gate holds.
func (r *Report) Holds() bool {
	for _, g := range r.Gates {
		if !g.Holds {
			return false
		}
	}
	return true
}
