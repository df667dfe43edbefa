package plant

import (
	"math"
	"slices"

	"faultwalk/engine/network"
	"faultwalk/trees"
)

// touchVolts is the voltage between the probes, in V, above which ohms are not
// read: the tester warns from there on. To earth it warns at the touch voltage
// of 50 V. Common practice, no source.
const (
	warnVolts  = 5
	touchVolts = 50
	testerOhms = 300e3 // the warning's own input
)

// ohms reads resistance, continuity or insulation by a current of its own.
func (s *Subject) ohms(r *Result, c *trees.BoundCheck, p trees.BoundProbe, a, b network.Node) error {
	of := s
	if p.Joined != nil {
		j, err := s.m.side(p.Joined, p.JoinedSide)
		if err != nil {
			return err
		}
		of = s.with(network.Branch{Name: "joined", From: a, To: j, Y: 1000, G: 1000})
		of.solver.Solve()
	}
	view := of.solver.Load(a, b, 1/complex(testerOhms, 0), 1.0/testerOhms)
	r.Live = r.Live || view.Volts(a, b) > warnVolts || math.Abs(view.VoltsDC(a, b)) > warnVolts ||
		view.Volts(a, network.Earth) > touchVolts || view.Volts(b, network.Earth) > touchVolts
	_, ohms := of.solver.Seen(a, b)
	if p.FromSide == p.ToSide && slices.Contains(c.Lifted, p.FromSide) {
		ohms += s.ends(p.FromSide)
	}
	r.Values, r.Amps = append(r.Values, ohms), append(r.Amps, 0)
	return nil
}

// ends is the resistance, in Ω, of both ends of a core that was lifted out of
// its terminals: what is broken or burnt at its end comes out with it.
func (s *Subject) ends(core string) (ohms float64) {
	for _, end := range []string{"@from", "@to"} {
		if i, ok := s.m.branchAt[core+end]; ok {
			ohms += 1 / s.net.Branches[i].G
		}
	}
	return ohms
}
