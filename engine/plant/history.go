package plant

import (
	"slices"
	"strings"

	"faultwalk/trees/formula"
)

// slowest is how often the slow rules are let go on: minutes of ordinary use.
const slowest = 60

// history is weeks of ordinary use with the fault in the plant: at rest, used
// until it is satisfied, and at rest again.
func (s *Subject) history() {
	for _, h := range s.starts {
		s.v[h.at] = h.to
	}
	s.release()
	s.settle()
	for _, c := range s.m.Plant.Calls {
		if c.ID != "booster" {
			s.v[s.m.varAt["call "+c.ID]] = 1
		}
	}
	s.settle()
	s.wait()
	s.release()
	s.settle()
	s.wait()
	s.base = slices.Clone(s.v)
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
		s.settle()
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

// do does one act and settles.
func (s *Subject) do(a formula.Act) {
	none := s.m.words.ID("none")
	set := func(name string, to float64) {
		if i, ok := s.m.varAt[name]; ok {
			s.v[i] = to
		}
	}
	switch a.Verb {
	case "call":
		set("call "+a.Of, 1)
	case "release":
		set("call "+a.Of, 0)
	case "rest":
		s.release()
	case "off":
		set("device "+a.Of+" on", 0)
	case "on":
		set("device "+a.Of+" on", 1)
	case "reset":
		s.reset(a.Of, none)
	case "wait":
		s.settle()
		s.wait()
		return
	}
	s.settle()
}

// reset clears what tripped: a device and every other on the same residual
// current device, or a part.
func (s *Subject) reset(id string, none float64) {
	i, device := s.m.varAt["device "+id+" tripped"]
	if !device {
		if i, part := s.m.varAt[id+".tripped"]; part {
			s.v[i] = 0
		}
		return
	}
	s.v[i] = none
	for _, t := range s.m.trips {
		if slices.Contains(t.set, i) {
			for _, j := range t.set {
				s.v[j] = none
			}
		}
	}
}

// may says what is wrong with an act on this plant.
func (m *Model) may(a formula.Act) error {
	var known []string
	switch a.Verb {
	case "call", "release":
		for _, c := range m.Plant.Calls {
			known = append(known, c.ID)
		}
	case "off", "on", "reset":
		for _, d := range m.Plant.Devices {
			known = append(known, d.ID)
		}
		if a.Verb == "reset" {
			for _, p := range m.Plant.Parts {
				known = append(known, p.ID)
			}
		}
	default:
		return nil
	}
	if slices.Contains(known, a.Of) {
		return nil
	}
	return formula.Unknown("something on the plant "+m.Plant.ID+" that "+a.Verb+" takes", a.Of, known)
}

// Act does something to the plant for good: "reset unit-breaker", or several
// with commas between. The plant is at rest afterwards.
func (s *Subject) Act(text string) error {
	acts, err := formula.ParseActs(text)
	if err != nil {
		return err
	}
	for _, a := range acts {
		if err := s.m.may(a); err != nil {
			return err
		}
	}
	s.part(nil)
	copy(s.v, s.base)
	for _, a := range acts {
		s.do(a)
	}
	s.release()
	s.settle()
	s.base = slices.Clone(s.v)
	s.acts += "; " + strings.TrimSpace(text)
	clear(s.settled)
	s.at = nil
	return nil
}
