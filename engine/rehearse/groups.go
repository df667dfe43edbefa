package rehearse

import (
	"math"

	"faultwalk/engine/walk"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// matrix holds what the checks that a person may take give for the faults of a
// plant, as far as it was asked for.
type matrix struct {
	set    *trees.Set
	bench  *bench
	ground *ground
	kit    measurements.Kit
	checks []column        // those the trees take first
	known  map[string]bool // of checks, by id, the refused ones too
	subs   map[*fault]subject
	cells  map[cell]answered
	twins  map[twinKey]*fault
	apart  map[[3]string]string // a group and two of its causes → the check that divides them
}

// column is one check that may be taken, and how the plant stands for it.
type column struct {
	check    *trees.BoundCheck
	specs    []measurements.ModeSpec
	standing standing
}

type cell struct {
	fault  *fault
	column int
}

// newMatrix lists every check of the plant's trees that is for these hands.
func newMatrix(set *trees.Set, b *bench, g *ground, kit measurements.Kit) *matrix {
	m := &matrix{set: set, bench: b, ground: g, kit: kit, known: map[string]bool{}, subs: map[*fault]subject{},
		cells: map[cell]answered{}, twins: map[twinKey]*fault{}, apart: map[[3]string]string{}}
	for _, c := range b.checks() {
		m.known[c.ID] = true
		m.take(c)
	}
	return m
}

// surely is the least chance that a look shows what is there, for it to divide
// a group (judgement).
const surely = 0.9

// take takes a check in, if it is for these hands.
func (m *matrix) take(c *trees.BoundCheck) {
	if len(c.Probes) == 0 && c.Check.Sure < surely {
		return
	}
	col := column{check: c}
	var modes []string
	for _, p := range c.Probes {
		all := walk.Options(m.kit, c, p)
		if len(all) == 0 {
			return
		}
		modes = append(modes, all[0].Mode)
		col.specs = append(col.specs, all[0].Spec)
	}
	if l := m.ground.leg(m.ground.first, nil, nil, c, modes); l.refusal == nil {
		col.standing = standing{withHandle(m.bench.plant, c, l.to.off), l.to.plugs}
		m.checks = append(m.checks, col)
	}
}

// divides names a check that gives every fault of one list a reading that no
// fault of the other can give; empty where there is none.
func (m *matrix) divides(of, other []*fault) string {
	for i, col := range m.checks {
		if m.disjoint(i, of, other) {
			return col.check.ID
		}
	}
	return ""
}

func (m *matrix) disjoint(col int, of, other []*fault) bool {
	if len(of) == 0 || len(other) == 0 {
		return false
	}
	for _, f := range of {
		for _, g := range other {
			if !differs(m.checks[col], m.cell(f, col), m.cell(g, col)) {
				return false
			}
		}
	}
	return !of[0].drawn || m.ranged(col, of, other)
}

// cell answers one check for one fault, nominal values, once. A check that
// cannot be answered divides nothing.
func (m *matrix) cell(f *fault, col int) answered {
	key := cell{f, col}
	a, known := m.cells[key]
	if !known {
		a, _ = m.subject(f).answer(m.checks[col].check, m.checks[col].specs, m.checks[col].standing)
		m.cells[key] = a
	}
	return a
}

// subject is the plant with a fault in it, nominal values.
func (m *matrix) subject(f *fault) subject {
	s := m.subs[f]
	if s == nil {
		s = m.bench.model.subject(f, nil)
		m.subs[f] = s
	}
	return s
}

// differs says whether a check tells two readings apart whatever the meter's
// error, the parts' tolerance and the supply make of them.
func differs(c column, a, b answered) bool {
	if len(c.check.Probes) == 0 {
		return a.answer != "" && b.answer != "" && a.answer != b.answer
	}
	if len(a.values) < len(c.specs) || len(b.values) < len(c.specs) || a.moving != b.moving {
		return len(a.values) == len(b.values) && a.moving != b.moving
	}
	for i, s := range c.specs {
		if !spread(s, a.values[i]).Overlaps(spread(s, b.values[i])) {
			return true
		}
	}
	return false
}

// spread is the interval that a nominal value stands for, from one plant and
// meter to the next.
func spread(s measurements.ModeSpec, v float64) measurements.Interval {
	if math.IsInf(v, 1) || v > s.Top() {
		return measurements.Interval{Lo: s.Top() * (1 - tolerances[s.Quantity].share), Hi: math.Inf(1)}
	}
	t := tolerances[s.Quantity]
	u := s.Error(v) + t.share*math.Abs(v) + t.fixed
	return measurements.Interval{Lo: v - u, Hi: v + u}
}

// tolerance is how far a value strays between sound plants of one make, beside
// the meter's error: a share of it and a fixed part.
type tolerance struct{ share, fixed float64 }

// tolerances by what is measured: parts are given to 5 to 10 % and mains
// wanders by a few volts within an hour. Common practice, no source.
var tolerances = map[measurements.Quantity]tolerance{
	measurements.ACVolts:    {0.03, 1},
	measurements.DCVolts:    {0.04, 0.02},
	measurements.Ohms:       {0.06, 0},
	measurements.Continuity: {0.06, 0.3},
	measurements.Insulation: {0.6, 0},
	measurements.Amps:       {0.06, 0.02},
	measurements.Leakage:    {0.3, 1e-4},
	measurements.Celsius:    {0, 2},
}
