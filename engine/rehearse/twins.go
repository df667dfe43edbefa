package rehearse

import (
	"math"
	"slices"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// of lists the faults that stand for a cause and not for the other: those that
// ended at the group, or all. What the sweep drew for one core may be drawn for
// another, so those that ended there as another cause stand with their twins:
// else a check would seem to tell the cores apart that only tells their ohms.
func (m *matrix) of(cause, not *trees.BoundCause, symptom string, arrived []*fault) []*fault {
	stands := func(f *fault) bool { return f != nil && f.is(cause.ID) && !f.is(not.ID) }
	var here, all []*fault
	for _, f := range arrived {
		if stands(f) {
			here = append(here, f)
		} else if t := m.twin(f, cause); stands(t) && m.shows(t, symptom) {
			here = append(here, t)
		}
	}
	for _, f := range m.bench.faults {
		if stands(f) {
			all = append(all, f)
		}
	}
	if len(here) > 0 {
		return here
	}
	return all
}

// twin is the same fault of the sweep on the core that a cause names; nil where
// there is none.
func (m *matrix) twin(f *fault, cause *trees.BoundCause) *fault {
	key := twinKey{f, cause.ID}
	t, known := m.twins[key]
	if ref, err := trees.ParseRef(cause.ID); !known && err == nil {
		for _, a := range ref.Args {
			if t == nil {
				t = m.bench.model.twin(f, a.Value)
			}
		}
	}
	m.twins[key] = t
	return t
}

type twinKey struct {
	of    *fault
	cause string
}

// shows says whether a fault shows a sign: one that does not is walked in
// another tree and never comes to the group.
func (m *matrix) shows(f *fault, symptom string) bool {
	return slices.ContainsFunc(m.bench.signs, func(s *trees.Sign) bool { return s.ID.Value == symptom && m.subject(f).shows(s) })
}

// ranged says whether a check tells two lists of drawn faults apart by ranges:
// what was drawn stands for everything between, so that readings which lie in
// between each other tell nothing.
func (m *matrix) ranged(col int, of, other []*fault) bool {
	c := m.checks[col]
	if len(c.check.Probes) == 0 || m.cell(of[0], col).moving != m.cell(other[0], col).moving {
		return true
	}
	for i := range c.specs {
		if !m.hull(col, i, of).Overlaps(m.hull(col, i, other)) {
			return true
		}
	}
	return false
}

// hull is the interval from the least to the most that faults give at a probe.
func (m *matrix) hull(col, probe int, faults []*fault) measurements.Interval {
	out := measurements.Interval{Lo: math.Inf(1), Hi: math.Inf(-1)}
	for _, f := range faults {
		s := spread(m.checks[col].specs[probe], m.cell(f, col).values[probe])
		out.Lo, out.Hi = min(out.Lo, s.Lo), max(out.Hi, s.Hi)
	}
	return out
}
