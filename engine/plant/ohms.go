package plant

import (
	"math"
	"slices"

	"faultwalk/engine/network"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// touchVolts is the voltage between the probes, in V, above which ohms are not
// read: the tester warns from there on. To earth it warns at the touch voltage
// of 50 V. Common practice, no source.
const (
	warnVolts  = 5
	touchVolts = 50
)

// ohms reads resistance, continuity or insulation by a current of its own.
func (s *Subject) ohms(r *Result, c *trees.BoundCheck, p trees.BoundProbe, a, b network.Node) error {
	r.Live = r.Live || s.alive(a, b)
	_, ohms := s.solver.Seen(a, b)
	if len(p.Joined) > 0 {
		var err error
		if ohms, err = s.together(r, p.Joined, a, b); err != nil {
			return err
		}
	}
	if p.FromSide == p.ToSide && slices.Contains(c.Lifted, p.FromSide) {
		ohms += s.ends(p.FromSide)
	}
	r.Values, r.Amps = append(r.Values, ohms), append(r.Amps, 0)
	return nil
}

// alive says whether a tester would warn of volts before it reads ohms.
func (s *Subject) alive(a, b network.Node) bool {
	view := s.solver.Load(a, b, 1.0/measurements.TesterOhms, 1.0/measurements.TesterOhms)
	return view.Volts(a, b) > warnVolts || math.Abs(view.VoltsDC(a, b)) > warnVolts ||
		view.Volts(a, network.Earth) > touchVolts || view.Volts(b, network.Earth) > touchVolts
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
