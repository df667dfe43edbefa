package plant

import (
	"math/cmplx"

	"faultwalk/engine/network"
	"faultwalk/trees"
)

// BodyOhms is a person between two parts: the total body impedance hand to hand
// at 225 V that 5 % of people are below is about 1 kΩ, twice that for dry hands
// (IEC 60479-1, from memory).
const BodyOhms = 2000

// harmlessVolts is what no protection is asked against in the dry, V ac
// (IEC 60364-4-41, 414.4.5); below it pairs of points are not looked at.
const harmlessVolts = 25

// spot is a point of the plant with its node.
type spot struct {
	id string
	at network.Node
}

// spots finds once what is in each enclosure and where cases are.
func (m *Model) spots() {
	m.inside = map[string][]spot{}
	for _, pt := range m.Plant.Points {
		n, ok := m.nodeOf(pt.ID)
		if !ok {
			continue
		}
		if pt.In != "" {
			m.inside[pt.In] = append(m.inside[pt.In], spot{pt.ID, n})
		}
		if pt.Role == "earth" {
			m.cases = append(m.cases, spot{pt.ID, n})
		}
	}
}

// Touch is the most a person reaching into an enclosure could stand under, in
// V at mains frequency through the body, and where: from any point in it to
// true earth, or between two of them. Calls and what is off are as given.
func (s *Subject) Touch(enclosure string, off, calls map[string]bool) (worst float64, at string) {
	s.stand(Standing{Calls: calls, Off: off})
	s.each(func() {
		s.fresh()
		for i, p := range s.m.inside[enclosure] {
			if v := s.through(p.at, network.Earth, worst); v > worst {
				worst, at = v, p.id
			}
			for _, q := range s.m.inside[enclosure][:i] {
				if v := s.through(p.at, q.at, max(worst, harmlessVolts)); v > worst {
					worst, at = v, q.id+" and "+p.id
				}
			}
		}
	})
	return worst, at
}

// through is what stands across a body between two nodes; what is no more than
// least without the body is not looked at.
func (s *Subject) through(a, b network.Node, least float64) float64 {
	if s.solver.Volts(a, b) <= max(least, 1) {
		return 0
	}
	return s.solver.Load(a, b, 1.0/BodyOhms, 1.0/BodyOhms).Volts(a, b)
}

// Between reads volts at mains frequency between two points with so many ohms
// across them, the plant standing as given: a line of a proving form. On a
// plant that goes round it is the most of its states.
func (s *Subject) Between(from, to *trees.Point, ohms float64, st Standing) (volts float64) {
	s.stand(st)
	a, ok := s.m.nodeOf(from.ID)
	b, ok2 := s.m.nodeOf(to.ID)
	if !ok || !ok2 {
		return 0
	}
	s.each(func() {
		s.fresh()
		volts = max(volts, s.solver.Load(a, b, complex(1/ohms, 0), 1/ohms).Volts(a, b))
	})
	return volts
}

// liftVolts is what a meter must add to a case to count as having lifted it, V.
const liftVolts = 5

// lifted is the most, in V, that any case stands at against true earth because
// of a meter: with it the network is that of the subject, or as a view has it.
// What flows says nothing: through a case whose earth is lost it is nothing.
func (s *Subject) lifted(with interface{ AC(network.Node) complex128 }) (worst float64) {
	for _, c := range s.m.cases {
		if now := cmplx.Abs(with.AC(c.at)); now > cmplx.Abs(s.solver.AC(c.at))+liftVolts {
			worst = max(worst, now)
		}
	}
	return worst
}
