package plant

import (
	"fmt"
	"slices"

	"faultwalk/engine/network"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// side is the node of a probe: on the part's or the core's own end where it was
// written so, else the point of the wiring.
func (m *Model) side(p *trees.Point, side string) (network.Node, error) {
	name := p.ID
	if part := m.Plant.Part(side); part != nil {
		for _, t := range sortedKeys(part.Terminals) {
			if part.Terminals[t] == p.ID {
				name = side + "." + t
			}
		}
	} else if side != "" {
		for _, l := range m.Plant.Links {
			if l.ID == side && l.From == p.ID {
				name = side + ":from"
			} else if l.ID == side && l.To == p.ID {
				name = side + ":to"
			}
		}
	}
	if n, ok := m.nodeOf(name); ok {
		return n, nil
	}
	return 0, fmt.Errorf("nothing is joined to %q, so nothing can be read there", name)
}

// thermometer is the temperature at a place: that of the sensor that sits there.
func (s *Subject) thermometer(at *trees.Point) (float64, error) {
	for _, p := range s.m.Plant.Parts {
		if p.Terminals["pocket"] == at.ID && p.Follows.Value != "" {
			return s.m.follows[p.ID].Func()(s), nil
		}
	}
	return 0, fmt.Errorf("no sensor sits at %q that says what it feels", at.ID)
}

// clamp reads the current of the core or the part at a point, or for a leakage
// clamp what its supply does not carry back.
func (s *Subject) clamp(q measurements.Quantity, p trees.BoundProbe) float64 {
	if q == measurements.Leakage {
		for _, n := range s.m.supplies {
			if slices.Contains(s.m.Plant.FedBy(p.From.ID), n.of.ID) {
				return s.residual([]supply{n})
			}
		}
	}
	for _, l := range s.m.Plant.Links {
		for end, at := range map[string]string{"@from": l.From, "@to": l.To} {
			if i, ok := s.m.branchAt[l.ID+end]; ok && at == p.From.ID && (p.FromSide == "" || p.FromSide == l.ID) {
				return s.amps(i)
			}
		}
	}
	for _, part := range s.m.Plant.Parts {
		for t, at := range part.Terminals {
			if i, ok := s.m.branchAt[part.ID+"@"+t]; ok && at == p.From.ID {
				return s.amps(i)
			}
		}
	}
	return 0
}
