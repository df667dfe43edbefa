package plant

import "slices"

// A rule is due when something it reads has changed since it was last applied,
// or what it sets was set by something else. One that is not due would give
// what stands already.

// dependents finds the rules that become due with each variable and with the
// network, and the branches that follow each variable.
func (m *Model) dependents() {
	m.readers, m.follow = make([][]int, len(m.vars)), make([][]int, len(m.vars))
	for _, i := range m.dynamic {
		for _, v := range m.branches[i].reads {
			if !slices.Contains(m.follow[v], i) {
				m.follow[v] = append(m.follow[v], i)
			}
		}
	}
	for i := range m.rules {
		r := &m.rules[i]
		m.readers[r.set] = append(m.readers[r.set], i)
		for _, v := range r.reads {
			if !slices.Contains(m.readers[v], i) {
				m.readers[v] = append(m.readers[v], i)
			}
		}
		if r.network {
			m.metering = append(m.metering, i)
		}
	}
}

func (s *Subject) allDue() {
	s.noneDue()
	for i := range s.due {
		s.due[i] = true
	}
}

func (s *Subject) noneDue() {
	if s.due == nil {
		s.due = make([]bool, len(s.m.rules))
	}
	clear(s.due)
}

func (s *Subject) dueFor(rules []int) {
	for _, i := range rules {
		s.due[i] = true
	}
}

// apply works out what every rule that is due gives.
func (s *Subject) apply() {
	for i := range s.m.rules {
		if s.due[i] {
			r := &s.m.rules[i]
			s.next[r.set] = r.to(s)
			s.due[i] = false
		}
	}
}

// passOn makes due what follows from the variables that change, and says
// whether any does.
func (s *Subject) passOn() (changes bool) {
	for v, x := range s.next {
		if x != s.v[v] {
			changes = true
			s.dueFor(s.m.readers[v])
		}
	}
	return changes
}

// electrical says whether the round moved anything that a branch depends on.
func (s *Subject) electrical() bool {
	for _, i := range s.m.moving {
		if s.v[i] != s.next[i] {
			return true
		}
	}
	return false
}

// step is a round with every rule, the network as it is read now.
func (s *Subject) step() bool {
	s.allDue()
	copy(s.next, s.v)
	if !s.protect() {
		s.apply()
	}
	for _, h := range s.locked {
		s.next[h.at] = h.to
	}
	return s.passOn()
}
