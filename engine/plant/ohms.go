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
	if p.Joined != nil {
		j, err := s.m.side(p.Joined, p.JoinedSide)
		if err != nil {
			return err
		}
		r.Live = r.Live || s.alive(j, b)
		ohms = s.both(a, j, b, ohms)
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

// both is the resistance, in Ω, from two nodes joined together to a third, out
// of that from the first and what is seen between the others: with the third
// held, those are the two own resistances and a mutual one.
func (s *Subject) both(a, j, b network.Node, ab float64) float64 {
	_, jb := s.solver.Seen(j, b)
	_, aj := s.solver.Seen(a, j)
	switch {
	case aj == 0:
		return ab
	case math.IsInf(ab, 1):
		return jb
	case math.IsInf(jb, 1) || math.IsInf(aj, 1):
		return ab
	}
	mutual := (ab + jb - aj) / 2
	return max(0, (ab*jb-mutual*mutual)/aj)
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
