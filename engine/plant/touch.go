package plant

import (
	"math/cmplx"

	"faultwalk/engine/network"
	"faultwalk/trees"
)

// bodyOhms is a person between a part and true earth: the total body impedance
// hand to hand at 225 V that 5 % of people are below, about 1 kΩ, twice that for
// dry hands (IEC 60479-1, from memory).
const bodyOhms = 2000

// Touch is the most a person reaching into an enclosure could stand under, in
// V at mains frequency, and where: from any point in it to true earth, through
// the body. Calls and what is off are as given.
func (s *Subject) Touch(enclosure string, off, calls map[string]bool) (worst float64, at string) {
	s.stand(Standing{Calls: calls, Off: off})
	for _, pt := range s.m.Plant.Points {
		if pt.In != enclosure {
			continue
		}
		n, ok := s.m.nodeOf(pt.ID)
		if !ok {
			continue
		}
		if v := s.loaded(n); v > worst {
			worst, at = v, pt.ID
		}
	}
	return worst, at
}

func (s *Subject) loaded(n network.Node) float64 {
	v := cmplx.Abs(s.solver.AC(n))
	if v < 1 {
		return v
	}
	return s.solver.Load(n, network.Earth, 1.0/bodyOhms, 1.0/bodyOhms).Volts(n, network.Earth)
}

// Between reads volts at mains frequency between two points with so many ohms
// across them, the plant standing as given: a line of a proving form.
func (s *Subject) Between(from, to *trees.Point, ohms float64, st Standing) float64 {
	s.stand(st)
	a, ok := s.m.nodeOf(from.ID)
	b, ok2 := s.m.nodeOf(to.ID)
	if !ok || !ok2 {
		return 0
	}
	return s.solver.Load(a, b, complex(1/ohms, 0), 1/ohms).Volts(a, b)
}

// cases is the most that any earth terminal stands at against true earth, in V
// through a body.
func (s *Subject) cases() (worst float64) {
	for _, pt := range s.m.Plant.Points {
		if n, ok := s.m.nodeOf(pt.ID); ok && pt.Role == "earth" {
			worst = max(worst, cmplx.Abs(s.solver.AC(n)))
		}
	}
	return worst
}

// lifted is the most that a meter lifts a case which stood at less without it.
func (s *Subject) lifted(view network.View, amps float64) (worst float64) {
	if amps < least {
		return 0
	}
	for _, pt := range s.m.Plant.Points {
		n, ok := s.m.nodeOf(pt.ID)
		if !ok || pt.Role != "earth" {
			continue
		}
		if with := cmplx.Abs(view.AC(n)); with > cmplx.Abs(s.solver.AC(n))+5 {
			worst = max(worst, with)
		}
	}
	return worst
}
