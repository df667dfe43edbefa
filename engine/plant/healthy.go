package plant

import (
	"fmt"
	"slices"
	"strings"

	"faultwalk/trees/strict"
)

// commission settles the healthy plant on its first day, and tries it: one that
// goes round, trips or floats with any of its calls made is refused.
func (m *Model) commission() {
	s := m.New(nil, nil)
	m.trial(s)
	copy(s.v, m.firsts())
	s.release()
	s.settle()
	m.commissioned = slices.Clone(s.v)
}

// trial settles a healthy plant with every set of its calls.
func (m *Model) trial(s *Subject) {
	if len(s.broken) > 0 {
		m.problem(m.pos(), "%s, in ordinary use; expected rules with hysteresis, and loads within the protection", s.broken)
		return
	}
	for _, calls := range CallSets(m.Plant) {
		s.stand(Standing{Calls: calls})
		if wrong := s.unhealthy(); wrong != "" {
			m.problem(m.pos(), "%s, with %s called", wrong, orNothing(Those(calls)))
			return
		}
	}
}

func orNothing(calls string) string {
	if calls == "" {
		return "nothing"
	}
	return calls
}

// unhealthy says what no healthy plant does: go round, trip or float. It is
// empty where all is well.
func (s *Subject) unhealthy() string {
	if len(s.visits) > 0 {
		return fmt.Sprintf("the healthy plant %q never comes to rest: %s go on changing", s.m.Plant.ID, strings.Join(s.moving(), ", "))
	}
	for i := range s.m.trips {
		if t := &s.m.trips[i]; s.tripped(t) {
			return fmt.Sprintf("the healthy plant %q trips: %s", s.m.Plant.ID, t.name)
		}
	}
	for _, nodes := range s.solver.Islands() {
		return fmt.Sprintf("part of the healthy plant %q floats: %s has no way to earth", s.m.Plant.ID, strings.Join(nodes, ", "))
	}
	return ""
}

// pos is where the plant is written.
func (m *Model) pos() strict.Pos {
	if f := m.set.Plants[m.Plant.ID]; f != nil {
		return f.Pos
	}
	return strict.Pos{}
}
