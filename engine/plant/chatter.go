package plant

import (
	"math"
	"slices"
)

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

// visited keeps the states from the one seen before to now.
func (s *Subject) visited(from, seen int) {
	for _, v := range s.trail[from:seen] {
		s.visits = append(s.visits, slices.Clone(v))
	}
	s.visits = append(s.visits, slices.Clone(s.v))
}

// each does something in every state that an unsteady plant goes through, or
// once on a plant at rest, and leaves the plant as it was. What is done reads
// the network by read, or after fresh.
func (s *Subject) each(do func()) {
	visits := s.visits
	if len(visits) == 0 {
		do()
		return
	}
	now := slices.Clone(s.v)
	for _, v := range visits {
		copy(s.v, v)
		s.stale = true
		do()
	}
	copy(s.v, now)
	s.stale = true
}

// between gives the least and the most of what is read in each state.
func (s *Subject) between(read func(*Subject) float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	s.each(func() {
		x := read(s)
		low, high = min(low, x), max(high, x)
	})
	return low, high
}

// swings says whether a formula differs between the states that an unsteady
// plant goes through.
func (s *Subject) swings(of func(*Subject) float64) bool {
	if len(s.visits) == 0 {
		return false
	}
	low, high := s.between(of)
	return low != high
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
