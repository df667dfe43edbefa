package plant

import (
	"fmt"
	"maps"
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
		for _, t := range slices.Sorted(maps.Keys(part.Terminals)) {
			if part.Terminals[t] == p.ID {
				name = side + "." + t
			}
		}
	} else if side != "" {
		for _, l := range m.Plant.Links {
			switch {
			case l.ID == side && l.From == p.ID:
				name = side + ":from"
			case l.ID == side && l.To == p.ID:
				name = side + ":to"
			}
		}
	}
	if n, ok := m.nodeOf(name); ok {
		return n, nil
	}
	return 0, fmt.Errorf("nothing is joined to %q, so nothing can be read there", name)
}

// thermometer is the temperature at a place, in °C: that of the sensor that
// sits there, the one the place was written of first.
func (s *Subject) thermometer(p trees.BoundProbe) (float64, error) {
	found := ""
	for _, part := range s.m.Plant.Parts {
		if part.Terminals["pocket"] == p.From.ID && part.Follows.Value != "" && (found == "" || part.ID == p.FromSide) {
			found = part.ID
		}
	}
	if found == "" {
		return 0, fmt.Errorf("no sensor sits at %q that says what it feels", p.From.ID)
	}
	return s.m.follows[found].Func()(s), nil
}

// clamp reads amperes: the current of the core or the part at a point, or for
// leakage what its supply does not carry back.
func (s *Subject) clamp(r *Result, q measurements.Quantity, p trees.BoundProbe) error {
	read, err := s.m.clamped(q, p)
	if err != nil {
		return err
	}
	low, high := s.between(read)
	r.Moving = r.Moving || high-low > wanders*high
	r.Values, r.Amps = append(r.Values, high), append(r.Amps, 0)
	return nil
}

// clamped finds what a clamp at a point goes round.
func (m *Model) clamped(q measurements.Quantity, p trees.BoundProbe) (func(*Subject) float64, error) {
	if q == measurements.Leakage {
		for _, n := range m.supplies {
			if slices.Contains(m.Plant.FedBy(p.From.ID), n.of.ID) {
				return func(s *Subject) float64 { return s.residual([]supply{n}) }, nil
			}
		}
	}
	for _, name := range m.ways(p) {
		if i, ok := m.branchAt[name]; ok {
			return func(s *Subject) float64 { return s.amps(i) }, nil
		}
	}
	return nil, fmt.Errorf("no core and no part ends at %q, so that a clamp has nothing to go round", p.From.ID)
}

// ways names the joints at a point: the cores', then the parts', those that the
// place was written of first.
func (m *Model) ways(p trees.BoundProbe) (joints []string) {
	for _, l := range m.Plant.Links {
		if p.FromSide == "" || p.FromSide == l.ID {
			if l.From == p.From.ID {
				joints = append(joints, l.ID+"@from")
			}
			if l.To == p.From.ID {
				joints = append(joints, l.ID+"@to")
			}
		}
	}
	for _, part := range m.Plant.Parts {
		for _, t := range slices.Sorted(maps.Keys(part.Terminals)) {
			switch {
			case part.Terminals[t] != p.From.ID:
			case part.ID == p.FromSide:
				joints = append([]string{part.ID + "@" + t}, joints...)
			default:
				joints = append(joints, part.ID+"@"+t)
			}
		}
	}
	return joints
}
