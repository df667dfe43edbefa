package rehearse

import (
	"maps"
	"slices"

	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// lacking is a reading that a check needs for its expectation and that was not
// taken yet, or the check itself.
func (w *walker) lacking(c *trees.BoundCheck) *trees.BoundCheck {
	for _, as := range slices.Sorted(maps.Keys(c.Uses)) {
		if need := c.Uses[as]; w.now[need.ID] == nil {
			return need
		}
	}
	return c
}

// begun is the reading of a check as far as it was taken.
func (w *walker) begun(c *trees.BoundCheck) *reading {
	if r := w.now[c.ID]; r != nil {
		return r
	}
	return &reading{check: c, values: make([]value, len(c.Probes)), using: make([]int, len(c.Probes))}
}

// reach brings the plant to where a reading may be taken.
func (w *walker) reach(step *trees.Bound, r *reading) *safety.Refusal {
	for {
		l := w.ground.leg(w.at, w.graph, step, r.check, w.modes(r))
		if l.refusal != nil {
			return l.refusal
		}
		if w.goes(step, l) {
			return nil
		}
	}
}

// used are the numbers that a check's expectation takes from earlier readings.
func (w *walker) used(c *trees.BoundCheck) map[string]float64 {
	if len(c.Uses) == 0 {
		return nil
	}
	out := map[string]float64{}
	for as, need := range c.Uses {
		if r := w.now[need.ID]; r != nil {
			if v, ok := r.middle(); ok {
				out[as] = v
			}
		}
	}
	return out
}
