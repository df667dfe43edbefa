package plant

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// Disturbance is a reading whose meter changes a healthy plant: a coil pulls in,
// a breaker trips, a case is lifted. No check may ask for it.
type Disturbance struct {
	Check *trees.BoundCheck
	Meter string // the instrument
	Mode  measurements.Mode
	What  string // what the meter does, in words
}

// Disturbed takes every reading of volts on the healthy plant, in each mode that
// its check names and the kit has, and gives those that change it. Checks that
// are taken dead are left out: nothing stands there.
func (m *Model) Disturbed(checks []*trees.BoundCheck, kit measurements.Kit) (out []Disturbance) {
	s := m.New(nil, nil)
	for _, c := range checks {
		if c.Need.Power == trees.DeadWay || c.Quantity != measurements.ACVolts && c.Quantity != measurements.DCVolts {
			continue
		}
		for _, p := range c.Probes {
			for _, mode := range p.Modes {
				if d, found := s.disturbed(c, p, measurements.Mode(mode), kit); found {
					out = append(out, d)
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Disturbance) int {
		return cmp.Or(cmp.Compare(a.Check.ID, b.Check.ID), cmp.Compare(a.Mode, b.Mode))
	})
	return out
}

func (s *Subject) disturbed(c *trees.BoundCheck, p trees.BoundProbe, mode measurements.Mode, kit measurements.Kit) (Disturbance, bool) {
	meter, spec, ok := kit.Find(mode, c.Quantity)
	if !ok {
		return Disturbance{}, false
	}
	one := *c
	one.Probes = []trees.BoundProbe{p}
	r, err := s.Answer(&one, How{Specs: []measurements.ModeSpec{spec}})
	if err != nil {
		return Disturbance{}, false
	}
	what := r.Tripped
	if len(what) == 0 {
		what = r.Moved
	}
	if r.LiftsTo > 0 {
		what = append(what, fmt.Sprintf("a case goes to %.0f V", r.LiftsTo))
	}
	return Disturbance{c, meter.ID, mode, strings.Join(what, ", ")}, len(what) > 0
}
