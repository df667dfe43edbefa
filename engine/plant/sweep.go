package plant

import (
	"fmt"
	"math"
	"math/rand/v2"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// severities are the ohms of the sweep, from a warm joint to an open one; each
// is drawn around its value so that no tree is fitted to them.
var severities = []float64{0.5, 2, 10, 50, 250, 1500, 10e3, 100e3, math.Inf(1)}

// Sweep lists faults that nobody wrote: every core of the plant, and then every
// earth core, resistive or open at both ends and in the middle. The severities
// are drawn, evenly in their logarithm, around nine by the seed; the last is open.
func (m *Model) Sweep(seed uint64) []*Fault {
	rng := rand.New(rand.NewPCG(seed, 0x5eed))
	var out []*Fault
	for _, kind := range []string{trees.LinkCore, trees.LinkEarth} {
		for _, l := range m.Plant.Links {
			if l.Kind != kind {
				continue
			}
			for _, at := range []string{"@from", "", "@to"} {
				for _, ohms := range severities {
					out = append(out, m.swept(l, at, ohms*math.Exp((rng.Float64()-0.5)*1.2)))
				}
			}
		}
	}
	return out
}

func (m *Model) swept(l *trees.Link, at string, ohms float64) *Fault {
	where, spoken := "midway", "midway"
	if point := map[string]string{"@from": l.From, "@to": l.To}[at]; point != "" {
		where, spoken = "at "+point, "at "+m.Plant.Words(point)
	}
	a := admittance{}
	size := "open"
	if !math.IsInf(ohms, 1) {
		a, size = admittance{complex(1/ohms, 0), 1 / ohms}, measurements.Ohms.Format(measurements.Significant(ohms, 3))
	}
	i := m.branchAt[l.ID+at]
	return &Fault{ID: fmt.Sprintf("%s of %s %s", size, l.ID, where), Words: fmt.Sprintf("%s is %s %s", l.Words, size, spoken),
		On: l.ID, Weight: l.Weight / 27, Electrical: true, Pos: l.Pos, changes: []change{force(i, a)}, sweep: &sweeping{at, ohms}}
}

// sweeping is what a fault of the sweep does to its core: where, and the ohms.
type sweeping struct {
	at   string
	ohms float64
}

// Twin is the same fault of the sweep on another core, as severe and in the same
// place; nil for a fault that was written, and where there is no such core.
func (m *Model) Twin(f *Fault, core string) *Fault {
	l := m.Plant.Core(core)
	if f == nil || f.sweep == nil || l == nil {
		return nil
	}
	return m.swept(l, f.sweep.at, f.sweep.ohms)
}
