package plant

import "slices"

// before finds the state that comes next among those seen.
func (s *Subject) before(seen int) int {
	for back := seen - 1; back >= 0; back-- {
		if slices.Equal(s.trail[back], s.next) {
			return back
		}
	}
	return -1
}

func (s *Subject) remember(n int) {
	if n == len(s.trail) {
		s.trail = append(s.trail, make([]float64, len(s.v)))
	}
	copy(s.trail[n], s.v)
}

// round keeps the states from the one seen before to now.
func (s *Subject) round(from, seen int) {
	for _, v := range s.trail[from:seen] {
		s.visits = append(s.visits, slices.Clone(v))
	}
	s.visits = append(s.visits, slices.Clone(s.v))
}

// swings says whether a formula differs between the states that an unsteady
// plant goes through.
func (s *Subject) swings(of func(*Subject) float64) bool {
	if len(s.visits) == 0 {
		return false
	}
	visits, now := s.visits, slices.Clone(s.v)
	defer func() {
		s.v, s.visits = now, visits
		s.solve()
	}()
	first, differs := 0.0, false
	for i, v := range visits {
		copy(s.v, v)
		s.solve()
		x := of(s)
		if i == 0 {
			first = x
		}
		differs = differs || x != first
	}
	return differs
}

// moving names the variables that an unsteady plant goes on changing.
func (s *Subject) moving() (names []string) {
	for i, v := range s.m.vars {
		for _, visit := range s.visits {
			if visit[i] != s.visits[0][i] {
				names = append(names, v.name)
				break
			}
		}
	}
	return names
}
