package plant

import (
	"slices"

	"faultwalk/trees/formula"
)

func (s *Subject) doAll(acts []formula.Act) {
	for _, a := range acts {
		s.do(a)
	}
}

// do does one act and settles.
func (s *Subject) do(a formula.Act) {
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
		s.reset(a.Of)
	case "wait":
		s.settle()
		s.wait()
		return
	}
	s.settle()
}

// reset clears what tripped: a device and every other on the same residual
// current device, or a part.
func (s *Subject) reset(id string) {
	i, device := s.m.varAt["device "+id+" tripped"]
	if !device {
		if i, part := s.m.varAt[id+".tripped"]; part {
			s.v[i] = 0
		}
		return
	}
	s.v[i] = s.m.none
	for _, t := range s.m.trips {
		if slices.Contains(t.set, i) {
			for _, j := range t.set {
				s.v[j] = s.m.none
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
	s.work(nil)
	s.back()
	s.doAll(acts)
	s.release()
	s.settle()
	s.ordinary()
	s.forget()
	return nil
}
