package plant

import "slices"

// rest is a state in which no rule changes anything: what settles from there is
// worked out from what is different alone.
type rest struct {
	v       []float64 // nil: none is known
	opened  []int
	worked  []string
	rewired bool // the network is another one than it was there
}

// since finds what is due where the plant stands: what follows from the changes
// since it was at rest, or everything.
func (s *Subject) since() {
	from := s.rest
	s.rest = rest{}
	if from.v == nil || !slices.Equal(from.worked, s.worked) {
		s.allDue()
		s.moved = true
		return
	}
	s.moved = from.rewired || s.m.loose || !slices.Equal(from.opened, s.opened)
	s.noneDue()
	for i, x := range from.v {
		if x != s.v[i] {
			s.dueFor(s.m.readers[i])
			s.moved = s.moved || s.m.electric[i]
		}
	}
}

// restAt notes that the plant is at rest where it stands.
func (s *Subject) restAt() {
	s.quiet = append(s.quiet[:0], s.v...)
	s.rest = rest{v: s.quiet, opened: s.opened, worked: s.worked}
}
