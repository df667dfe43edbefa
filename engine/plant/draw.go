package plant

import (
	"math/rand/v2"

	"faultwalk/engine/network"
)

// Draw is one plant of its kind: parts within their tolerance, the supply as it
// is in that street.
type Draw struct {
	values  []float64
	factor  []float64
	nominal []admittance
}

// Draw gives the plant of a seed. Values and branches lie evenly within their
// tolerance.
func (m *Model) Draw(seed uint64) *Draw {
	rng := rand.New(rand.NewPCG(seed, 0xd4a3))
	return m.drawn(func() float64 { return 2*rng.Float64() - 1 })
}

// drawn takes every value and branch from within its tolerance: lot is where,
// from -1 to 1.
func (m *Model) drawn(lot func() float64) *Draw {
	d := &Draw{values: m.nominalValues(), factor: make([]float64, len(m.branches))}
	for i := range m.values {
		d.values[i] *= 1 + m.values[i].tolerance*lot()
	}
	for i := range m.branches {
		d.factor[i] = 1 + m.branches[i].tolerance*lot()
	}
	d.nominal = make([]admittance, len(m.branches))
	probe := &Subject{m: m, v: m.firsts(), values: d.values}
	probe.words()
	for i := range m.branches {
		if b := &m.branches[i]; !b.moves {
			d.nominal[i] = b.admittance(probe, d.factor[i])
		}
	}
	return d
}

func (d *Draw) apply(s *Subject, net *network.Network) {
	s.values, s.factor = d.values, d.factor
	for i := range s.m.branches {
		if !s.m.branches[i].moves {
			net.Branches[i].Y, net.Branches[i].G = d.nominal[i].y, d.nominal[i].g
		}
	}
}
