package plant

import (
	"slices"

	"faultwalk/trees/formula"
)

// after gives a formula after acts from the present state, and puts that back.
func (s *Subject) after(acts []formula.Act, of func(*Subject) float64) float64 {
	v, visits, at := slices.Clone(s.v), s.visits, s.at
	key := ""
	if at != nil {
		key = at.key
	}
	for _, a := range acts {
		key += "; " + a.String()
	}
	if known := s.settled[key]; known != nil && at != nil {
		s.load(known)
	} else {
		for _, a := range acts {
			s.do(a)
		}
		if at != nil {
			s.keep(key)
		}
	}
	x := of(s)
	copy(s.v, v)
	s.visits, s.at = visits, at
	s.solve()
	return x
}

// keep stores the state that was just settled under a key.
func (s *Subject) keep(key string) *state {
	st := &state{key: key, v: slices.Clone(s.v), visits: s.visits, opened: s.opened}
	s.settled[key] = st
	s.at = st
	return st
}

// load brings the subject into a state it was in.
func (s *Subject) load(st *state) {
	copy(s.v, st.v)
	s.visits, s.at = st.visits, st
	s.part(st.opened)
	s.solve()
}

// state is a plant that has come to rest, or goes round.
type state struct {
	key    string
	v      []float64
	visits [][]float64
	opened []int
}
