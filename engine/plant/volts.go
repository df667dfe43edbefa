package plant

import (
	"math"
	"math/cmplx"

	"faultwalk/engine/network"
)

// volts reads between two nodes with a meter of so many ohms.
func (s *Subject) volts(r *Result, dc bool, a, b network.Node, input float64) {
	y := 0.0
	if input > 0 {
		y = 1 / input
	}
	if len(s.visits) > 0 {
		s.unsteadyVolts(r, dc, a, b, y)
		return
	}
	view := s.solver.Load(a, b, complex(y, 0), y)
	ac, direct := view.Drawn()
	amps := max(cmplx.Abs(ac), math.Abs(direct))
	value := reads(view, dc, a, b)
	if moved := s.movedBy(view, amps); moved != nil {
		r.Moved = append(r.Moved, moved...)
		value = s.metered(r, dc, network.Branch{Name: "meter", From: a, To: b, Y: complex(y, 0), G: y})
	} else {
		r.LiftsTo = max(r.LiftsTo, s.lifted(view))
	}
	r.Values, r.Amps = append(r.Values, value), append(r.Amps, amps)
}

func reads(n reader, dc bool, a, b network.Node) float64 {
	if dc {
		return n.VoltsDC(a, b)
	}
	return n.Volts(a, b)
}

// wanders is the part of a reading from which a person calls it moving: a sound
// supply gives as much under a load that comes and goes (BS 7671 Appendix 4: a
// drop of up to 5 % for other uses than lighting).
const wanders = 0.05

// unsteadyVolts reads a plant that goes round: the reading moves where its
// states differ by what a person sees, and the highest is given.
func (s *Subject) unsteadyVolts(r *Result, dc bool, a, b network.Node, y float64) {
	drawn := 0.0
	low, high := s.between(func(s *Subject) float64 {
		s.fresh()
		view := s.solver.Load(a, b, complex(y, 0), y)
		ac, direct := view.Drawn()
		drawn = max(drawn, cmplx.Abs(ac), math.Abs(direct))
		r.LiftsTo = max(r.LiftsTo, s.lifted(view))
		return reads(view, dc, a, b)
	})
	r.Moving = r.Moving || high-low > 1+wanders*math.Abs(high)
	r.Values, r.Amps = append(r.Values, high), append(r.Amps, drawn)
}
