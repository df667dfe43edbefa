package network

import (
	"math/rand/v2"
	"testing"
)

// bench is a plant-like network and its contacts.
func bench() (n *Network, contacts []int) {
	n = plantlike(rand.New(rand.NewPCG(1, 1)))
	for i, b := range n.Branches {
		if b.Y == 1/0.05 {
			contacts = append(contacts, i)
		}
	}
	return n, contacts
}

// BenchmarkSolveAfterAContactMoved is the ac and the dc network.
func BenchmarkSolveAfterAContactMoved(b *testing.B) {
	n, contacts := bench()
	s := NewSolver(n)
	s.Solve()
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		c := contacts[i%8]
		y, _, g, _ := s.Value(c)
		s.Set(c, 20-y, 20-g)
		s.Solve()
	}
	b.ReportMetric(float64(len(n.Names)), "nodes")
	b.ReportMetric(float64(len(n.Branches)), "branches")
	b.ReportMetric(float64(len(s.ac.t.p.row)), "slots")
	b.ReportMetric(float64(len(s.ac.t.p.update)), "updates")
}

func BenchmarkSolveWithNothingChanged(b *testing.B) {
	n, contacts := bench()
	s := NewSolver(n)
	for b.Loop() {
		s.Set(contacts[0], 20, 20)
		s.Solve()
	}
}

// BenchmarkSolveAfterASourceMoved is a dc source only: nothing is eliminated.
func BenchmarkSolveAfterASourceMoved(b *testing.B) {
	n, _ := bench()
	s := NewSolver(n)
	s.Solve()
	i := 0
	for b.Loop() {
		i++
		s.Source(int(s.dc.sources[0]), 0, float64(12+i%2))
		s.Solve()
	}
}

func BenchmarkSeenAcrossALoad(b *testing.B) {
	n, _ := bench()
	s := NewSolver(n)
	s.Solve()
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		s.Seen(Node(20+i%2), 8)
	}
}

func BenchmarkLoadAndRead(b *testing.B) {
	n, _ := bench()
	s := NewSolver(n)
	s.Solve()
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		a := Node(20 + i%2)
		s.Load(a, 8, 1e-7, 1e-7).Volts(a, 8)
	}
}

func BenchmarkNewSolver(b *testing.B) {
	n, _ := bench()
	b.ReportAllocs()
	for b.Loop() {
		NewSolver(n)
	}
}

func BenchmarkShare(b *testing.B) {
	n, _ := bench()
	s := NewSolver(n)
	b.ReportAllocs()
	for b.Loop() {
		s.Share(n)
	}
}
