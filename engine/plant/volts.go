package plant

import (
	"math"
	"math/cmplx"

	"faultwalk/engine/network"
)

// volts reads between two nodes with a meter of so many ohms.
func (s *Subject) volts(r *Result, dc bool, a, b network.Node, input float64, at *state) {
	if len(s.visits) > 0 {
		s.unsteadyVolts(r, dc, a, b, input)
		return
	}
	y := 0.0
	if input > 0 {
		y = 1 / input
	}
	view := s.solver.Load(a, b, complex(y, 0), y)
	ac, direct := view.Drawn()
	amps := max(cmplx.Abs(ac), math.Abs(direct))
	value := reads(view, dc, a, b)
	if moved := s.movedBy(view, amps); moved != nil {
		r.Moved = append(r.Moved, moved...)
		value = s.metered(r, dc, a, b, y)
	} else {
		r.LiftsTo = max(r.LiftsTo, s.lifted(view, amps))
	}
	r.Values, r.Amps = append(r.Values, value), append(r.Amps, amps)
}

func reads(n reader, dc bool, a, b network.Node) float64 {
	if dc {
		return n.VoltsDC(a, b)
	}
	return n.Volts(a, b)
}

// unsteadyVolts reads a plant that goes round: the reading moves where its
// states differ, and the highest is given.
func (s *Subject) unsteadyVolts(r *Result, dc bool, a, b network.Node, input float64) {
	y := 0.0
	if input > 0 {
		y = 1 / input
	}
	low, high, drawn := math.Inf(1), math.Inf(-1), 0.0
	visits := s.visits
	for _, v := range visits {
		copy(s.v, v)
		s.solve()
		view := s.solver.Load(a, b, complex(y, 0), y)
		x := reads(view, dc, a, b)
		ac, _ := view.Drawn()
		low, high, drawn = min(low, x), max(high, x), max(drawn, cmplx.Abs(ac))
	}
	if high-low > 1+0.02*math.Abs(high) {
		r.Moving = true
	}
	s.load(s.at)
	r.Values, r.Amps = append(r.Values, high), append(r.Amps, drawn)
}
