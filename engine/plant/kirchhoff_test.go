package plant_test

import (
	"math"
	"math/cmplx"
	"testing"

	"faultwalk/engine/network"
	"faultwalk/engine/plant"
)

// rounding is the share of what could flow into a node, its admittances times
// the highest volts of the network, that may be left over: 450 roundings of a
// float64, with hundreds of branches.
const rounding = 1e-13

// leftOver is the most by which currents into a node do not cancel, as a share
// of what could flow there; at mains frequency and at dc.
func leftOver(s *plant.Subject) (worst float64) {
	solved, nodes, most := s.Solved(), 0, 240.0
	for _, b := range s.Branches() {
		nodes = max(nodes, int(b.From)+1, int(b.To)+1)
		most = max(most, cmplx.Abs(solved.AC(b.From)), math.Abs(solved.DC(b.From)))
	}
	into, of := make([]complex128, nodes), make([]float64, nodes)
	direct, ofDirect := make([]float64, nodes), make([]float64, nodes)
	for i, b := range s.Branches() {
		y, _, g, _ := solved.Value(i)
		for sign, n := range map[float64]network.Node{1: b.From, -1: b.To} {
			if n != network.Earth {
				into[n] += complex(sign, 0) * solved.Amps(i)
				direct[n] += sign * solved.AmpsDC(i)
				of[n] += cmplx.Abs(y) * most
				ofDirect[n] += g * most
			}
		}
	}
	for n := range into {
		worst = max(worst, cmplx.Abs(into[n])/of[n], math.Abs(direct[n])/ofDirect[n])
	}
	return worst
}

// TestCurrentsCancelAtEveryNode is Kirchhoff's current law in every state that
// a plant comes to: healthy, with every fault, with nothing and everything called.
func TestCurrentsCancelAtEveryNode(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		t.Run(m.Plant.ID, func(t *testing.T) {
			t.Parallel()
			s := m.New(nil, nil)
			sets := combinations(m)
			for _, f := range append([]*plant.Fault{nil}, sample(m.Faults())...) {
				s.Be(f, nil)
				for _, calls := range []map[string]bool{sets[0], sets[len(sets)-1]} {
					s.Stand(plant.Standing{Calls: calls})
					if worst := leftOver(s); !(worst <= rounding) {
						t.Errorf("%s, calls %v: %.2g of the currents at a node are left", id(f), calls, worst)
					}
				}
			}
		})
	}
}

func id(f *plant.Fault) string {
	if f == nil {
		return "healthy"
	}
	return f.ID
}
