package plant

import "slices"

// slowest is how often the slow rules are let go on: minutes of ordinary use.
const slowest = 60

// history is weeks of ordinary use with the fault in the plant: at rest, used
// until it is satisfied, and at rest again. Ordinary use calls for all but what is
// seldom called.
func (s *Subject) history() {
	for _, h := range s.starts {
		s.v[h.at] = h.to
	}
	s.release()
	s.lives()
	for _, c := range s.m.Plant.Calls {
		if !c.Seldom {
			s.v[s.m.varAt["call "+c.ID]] = 1
		}
	}
	s.lives()
	s.wait()
	s.release()
	s.lives()
	s.wait()
	s.ordinary()
}

// ordinary notes the plant as it stands as the one that every reading begins with.
func (s *Subject) ordinary() {
	s.base, s.resting = append(s.base[:0], s.v...), len(s.visits) == 0
}

// back brings the plant to where every reading begins, but for what is opened.
func (s *Subject) back() {
	copy(s.v, s.base)
	s.rest = rest{}
	if s.resting {
		s.rest.v = s.base
	}
}

// lives settles; what a healthy plant never does is noted.
func (s *Subject) lives() {
	s.settle()
	if s.fault == nil && s.broken == "" {
		s.broken = s.unhealthy()
	}
}

func (s *Subject) release() {
	for _, c := range s.m.Plant.Calls {
		s.v[s.m.varAt["call "+c.ID]] = 0
	}
}

// wait lets the slow rules run until they change nothing. On a plant that goes
// round they read the state it is in just then.
func (s *Subject) wait() {
	for range slowest {
		if !s.creep() {
			return
		}
		s.lives()
	}
}

// creep applies the slow rules once.
func (s *Subject) creep() bool {
	copy(s.next, s.v)
	for i := range s.m.slow {
		r := &s.m.slow[i]
		if !s.isLocked(r.set) {
			s.next[r.set] = r.to(s)
		}
	}
	if slices.Equal(s.next, s.v) {
		return false
	}
	s.v, s.next = s.next, s.v
	return true
}
