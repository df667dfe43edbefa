package plant

import "faultwalk/engine/network"

// least is the current of a meter, in A, below which it moves nothing: a tenth
// of what any coil or input here takes.
const least = 20e-6

// movedBy says what would change with the meter in place; nil for nothing.
func (s *Subject) movedBy(view network.View, amps float64) []string {
	if amps < least {
		return nil
	}
	s.meter = view
	changes := s.step()
	s.meter = s.solver
	if !changes {
		return nil
	}
	var out []string
	for i, v := range s.m.vars {
		if s.next[i] != s.v[i] {
			out = append(out, v.name)
		}
	}
	return out
}

// metered settles the plant with the meter as a branch of it, and reads there.
// The plant itself is left as it was: the meter comes off again. Where it makes
// the plant go round, the highest is given.
func (s *Subject) metered(r *Result, dc bool, meter network.Branch) float64 {
	t := s.with(meter)
	t.settle()
	if len(t.visits) > 0 {
		r.Moving = true
	}
	for i := range s.m.trips {
		if p := &s.m.trips[i]; t.tripped(p) && !s.tripped(p) {
			r.Tripped = append(r.Tripped, p.name)
		}
	}
	_, highest := t.between(func(t *Subject) float64 {
		t.fresh()
		r.LiftsTo = max(r.LiftsTo, s.lifted(t.solver))
		return reads(t.solver, dc, meter.From, meter.To)
	})
	return highest
}

// with is the plant with one more branch, in the same state. It is in the room
// of the one before, and holds until the next.
func (s *Subject) with(extra network.Branch) *Subject {
	if s.spare == nil {
		s.spare = &Subject{net: &network.Network{Names: s.net.Names}, solver: s.solver.Share(s.net), settled: map[string]*state{}}
	}
	t := s.spare
	t.m, t.fault, t.values, t.factor = s.m, s.fault, s.values, s.factor
	t.forced, t.locked, t.opened, t.worked = s.forced, s.locked, s.opened, s.worked
	t.net.Branches = append(t.net.Branches[:0], s.net.Branches...)
	for i := range t.net.Branches {
		b := &t.net.Branches[i]
		b.Y, b.E, b.G, b.EDC = s.solver.Value(i)
	}
	t.net.Branches = append(t.net.Branches, extra)
	t.solver.Take(t.net)
	t.meter = t.solver
	t.v, t.next = append(t.v[:0], s.v...), append(t.next[:0], s.v...)
	t.stale, t.anew, t.visits = true, true, nil
	t.rest = rest{}
	if len(s.visits) == 0 {
		t.rest = rest{v: s.v, opened: s.opened, worked: s.worked, rewired: true}
	}
	return t
}
