package plant

// most is how many rounds a plant gets to come to rest before it is looked at
// as one that never does.
const most = 80

// settle brings the plant to rest from the variables as they are. The visits of
// a plant that goes round are kept.
func (s *Subject) settle() {
	for _, h := range s.locked {
		s.v[h.at] = h.to
	}
	s.visits, s.stale = nil, true
	s.since()
	seen := 0
	for range most {
		if !s.round() {
			s.restAt()
			return
		}
		if back := s.before(seen); back >= 0 {
			s.visited(back, seen)
			return
		}
		s.remember(seen)
		seen++
		s.v, s.next = s.next, s.v
		moves := s.m.loose || s.electrical()
		s.stale, s.moved = s.stale || moves, s.moved || moves
	}
	s.visited(max(0, seen-8), seen)
}

// round works out what comes next, as far as it can differ from what stands, the
// network solved if the rules have not seen it as it is. It says whether
// anything changes; a protection that acts acts alone, and the network is looked
// at again for the next one, which may act though nothing that a branch depends
// on moved.
func (s *Subject) round() bool {
	looks := s.moved
	if looks {
		s.fresh()
		s.dueFor(s.m.metering)
	}
	copy(s.next, s.v)
	s.moved = (looks || s.m.watchful) && s.protect()
	if !s.moved {
		s.apply()
	}
	for _, h := range s.locked {
		s.next[h.at] = h.to
	}
	return s.passOn()
}

// protect lets the worst overload act, if there is one.
func (s *Subject) protect() bool {
	worst, which := 1.0, -1
	for i := range s.m.trips {
		t := &s.m.trips[i]
		if over := t.overload(s); over >= worst && s.canTrip(t) {
			worst, which = over, i
		}
	}
	if which < 0 {
		return false
	}
	for _, i := range s.m.trips[which].set {
		s.next[i] = s.m.trips[which].to
	}
	return true
}

// tripped says whether a protection has acted.
func (s *Subject) tripped(t *trip) bool {
	for _, i := range t.set {
		if s.v[i] == t.to {
			return true
		}
	}
	return false
}

func (s *Subject) canTrip(t *trip) bool {
	for _, i := range t.set {
		if s.v[i] != t.to && !s.isLocked(i) {
			return true
		}
	}
	return false
}

func (s *Subject) isLocked(i int) bool {
	for _, h := range s.locked {
		if h.at == i {
			return true
		}
	}
	return false
}
