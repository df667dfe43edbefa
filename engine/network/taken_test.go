package network

import (
	"math/cmplx"
	"math/rand/v2"
	"testing"
)

// One solver that takes one network after another, each joined another way but
// of the same size, must read a meter as a fresh solver does.
func TestASolverThatTakesOtherTopologiesReadsAsAFreshOne(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(7, 7))
	base := meshed(rng, 14)
	s := NewSolver(base)
	for round := range 400 {
		n := base.Clone()
		n.Add(Branch{Name: "more", From: Node(rng.IntN(14)), To: Node(rng.IntN(14)), Y: 0.3, G: 0.3})
		s.Take(n)
		fresh := NewSolver(n)
		s.Solve()
		fresh.Solve()
		a, b := Node(rng.IntN(14)), Node(rng.IntN(14))
		got, want := s.Load(a, b, 0.01, 0.01), fresh.Load(a, b, 0.01, 0.01)
		for at := range 14 {
			if d := cmplx.Abs(got.AC(Node(at)) - want.AC(Node(at))); d > 1e-6 {
				t.Fatalf("round %d: node %d reads %v, a fresh solver %v", round, at, got.AC(Node(at)), want.AC(Node(at)))
			}
		}
		s.Seen(Node(rng.IntN(14)), Node(rng.IntN(14)))
	}
}

// meshed is a random network of so many nodes with a source.
func meshed(rng *rand.Rand, nodes int) *Network {
	n := &Network{}
	for i := range nodes {
		n.Node(string(rune('a' + i)))
		n.Add(Branch{From: Node(i), To: Earth, Y: complex(rng.Float64()*0.01+0.001, 0), G: 0.01})
	}
	for range 2 * nodes {
		n.Add(Branch{From: Node(rng.IntN(nodes)), To: Node(rng.IntN(nodes)), Y: complex(rng.Float64()+0.01, rng.Float64()), G: 1})
	}
	n.Add(Branch{From: 0, To: Earth, Y: 1, G: 1, E: 240, EDC: 5})
	return n
}
