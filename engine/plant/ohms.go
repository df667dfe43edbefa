package plant

import (
	"faultwalk/engine/network"
	"faultwalk/trees"
)

// touchVolts is the voltage, in V, above which ohms are not read: the tester
// warns from there on.
const touchVolts = 5

// ohms reads resistance, continuity or insulation by a current of its own.
func (s *Subject) ohms(r *Result, p trees.BoundProbe, a, b network.Node) error {
	of := s
	if p.Joined != nil {
		j, err := s.m.side(p.Joined, p.JoinedSide)
		if err != nil {
			return err
		}
		of = s.with(network.Branch{Name: "joined", From: a, To: j, Y: 1000, G: 1000})
		of.solver.Solve()
	}
	view := of.solver.Load(a, b, 1/complex(300e3, 0), 1/300e3)
	if view.Volts(a, b) > touchVolts || view.Volts(a, network.Earth) > 50 || view.Volts(b, network.Earth) > 50 {
		r.Live = true
	}
	_, ohms := of.solver.Seen(a, b)
	r.Values, r.Amps = append(r.Values, ohms), append(r.Amps, 0)
	return nil
}
