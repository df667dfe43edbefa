package plant

import (
	"slices"

	"faultwalk/trees/formula"
)

// acts are done one after the other; key names them, and alone is the standing
// that they are from rest, where they are one call.
type acts struct {
	list       []formula.Act
	key, alone string
}

func newActs(list []formula.Act) *acts {
	a := &acts{list: list}
	for _, x := range list {
		a.key += "; " + x.String()
	}
	if len(list) == 1 && list[0].Verb == "call" {
		a.alone = Standing{Calls: map[string]bool{list[0].Of: true}}.key()
	}
	return a
}

// from is the key of the state that the acts lead to.
func (a *acts) from(st *state) string {
	if a.alone != "" && st.key == atRest && len(st.visits) == 0 {
		return a.alone
	}
	return st.key + a.key
}

// after gives a formula after acts from the present state, and puts that back.
func (s *Subject) after(a *acts, of func(*Subject) float64) float64 {
	before, at, visits := s.copied(), s.at, s.visits
	defer func() {
		copy(s.v, before)
		s.room = append(s.room, before)
		s.visits, s.at, s.stale, s.rest = visits, at, true, rest{}
	}()
	if at == nil {
		s.doAll(a.list)
		return of(s)
	}
	key := a.from(at)
	if known := s.settled[key]; known != nil {
		s.load(known)
	} else {
		s.doAll(a.list)
		s.keep(key)
	}
	return of(s)
}

// keep stores the state that was just settled under a key.
func (s *Subject) keep(key string) {
	s.at = &state{key: key, v: s.copied(), visits: s.visits, opened: s.opened, worked: s.worked}
	s.settled[key] = s.at
}

// copied is the variables as they are, in room that was used before.
func (s *Subject) copied() []float64 {
	if n := len(s.room); n > 0 {
		v := s.room[n-1]
		s.room = s.room[:n-1]
		copy(v, s.v)
		return v
	}
	return slices.Clone(s.v)
}

// forget drops all states that are kept.
func (s *Subject) forget() {
	for _, st := range s.settled {
		s.room = append(s.room, st.v)
	}
	clear(s.settled)
	s.at, s.rest = nil, rest{}
}

// load brings the subject into a state it was in.
func (s *Subject) load(st *state) {
	copy(s.v, st.v)
	s.visits, s.at, s.stale, s.rest = st.visits, st, true, rest{}
	s.part(st.opened)
	if len(st.visits) == 0 {
		s.rest = rest{v: st.v, opened: st.opened, worked: st.worked}
	}
}

// state is a plant that has come to rest, or goes round.
type state struct {
	key    string
	v      []float64
	visits [][]float64
	opened []int
	worked []string
}
