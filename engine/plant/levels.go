package plant

import (
	"cmp"
	"math"
	"slices"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// levelDraws is how many plants within tolerance the levels are taken from,
// beside the nominal one.
const levelDraws = 20

// Levels works out what the healthy plant shows at every pair of points that
// the checks read in ac volts, with each mode they may be read in: the most
// while nothing drives it and the least while something does, over every
// combination of calls with every supply on, and parts within tolerance. Off is
// rounded up to half a volt, On down to a volt, so that they do not change with
// every digit; what is under a quarter of a volt undriven, and full mains
// driven, is left out.
func (m *Model) Levels(checks []*trees.BoundCheck, kit measurements.Kit) []trees.Level {
	pairs := m.pairs(checks, kit)
	for d := range levelDraws + 1 {
		var draw *Draw
		if d > 0 {
			draw = m.Draw(uint64(d))
		}
		s := m.New(nil, draw)
		for _, calls := range CallSets(m.Plant) {
			s.stand(Standing{Calls: calls})
			for i := range pairs {
				pairs[i].see(s)
			}
		}
	}
	var out []trees.Level
	for _, p := range pairs {
		if l, told := p.level(); told {
			out = append(out, l)
		}
	}
	slices.SortFunc(out, func(a, b trees.Level) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To), cmp.Compare(a.Mode, b.Mode))
	})
	return out
}

// pair is two points and a mode, and what was seen between them.
type pair struct {
	from, to, mode string
	ohms           float64
	off, on        float64
}

// pairs lists every pair of the checks once, in each mode the kit has.
func (m *Model) pairs(checks []*trees.BoundCheck, kit measurements.Kit) (out []*pair) {
	known := map[[3]string]bool{}
	for _, c := range checks {
		if c.Quantity != measurements.ACVolts {
			continue
		}
		for _, p := range c.Probes {
			for _, mode := range p.Modes {
				_, spec, ok := kit.Find(measurements.Mode(mode), c.Quantity)
				key := [3]string{p.From.ID, p.To.ID, mode}
				if !ok || known[key] {
					continue
				}
				known[key] = true
				out = append(out, &pair{from: p.From.ID, to: p.To.ID, mode: mode, ohms: spec.InputOhms, on: math.Inf(1), off: -1})
			}
		}
	}
	return out
}

// driven is the voltage, in V, that parts driven from not: half of what a
// healthy supply gives.
const driven = 110

func (p *pair) see(s *Subject) {
	a, _ := s.m.nodeOf(p.from)
	b, _ := s.m.nodeOf(p.to)
	v := s.solver.Load(a, b, complex(1/p.ohms, 0), 1/p.ohms).Volts(a, b)
	if v > driven {
		p.on = min(p.on, v)
	} else {
		p.off = max(p.off, v)
	}
}

// level rounds what was seen; it is told where it says more than that the pair
// is dead or has full mains.
func (p *pair) level() (trees.Level, bool) {
	l := trees.Level{From: p.from, To: p.to, Mode: p.mode, Off: -1, On: -1}
	if p.off >= 0.25 {
		l.Off = math.Ceil(2*p.off) / 2
	}
	if !math.IsInf(p.on, 1) && p.on < fullVolts {
		l.On = math.Floor(p.on)
	}
	return l, l.Off >= 0 || l.On >= 0
}

// fullVolts is the least of a supply by statute, 216.2 V, and two volts for the
// meter: what reads more than that is told from a weak supply as it is.
const fullVolts = 218.2
