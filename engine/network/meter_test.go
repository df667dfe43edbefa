package network

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"faultwalk/engine/network/oracle"
)

func TestMeterByLowRankIsTheMeterAsBranch(t *testing.T) {
	t.Parallel()
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 2))
		n := randomNetwork(r, 10, 25)
		a, b := randomNode(r, 10), randomNode(r, 10)
		y := complex(math.Pow(10, -7+4*r.Float64()), 1e-7*r.Float64())
		s := NewSolver(n)
		s.Solve()
		view := s.Load(a, b, y, real(y))
		n.Add(Branch{Name: "meter", From: a, To: b, Y: y, G: real(y)})
		judged(t, fmt.Sprintf("seed %d", seed), n, view)
	}
}

// TestSeenIsWhatAnAmpereFindsInTheOracle feeds an ampere between two nodes of
// the dead network and takes the voltage: to twelve digits, from milliohms to
// gigohms.
func TestSeenIsWhatAnAmpereFindsInTheOracle(t *testing.T) {
	t.Parallel()
	for seed := range uint64(100) {
		r := rand.New(rand.NewPCG(seed, 5))
		n := randomNetwork(r, 12, 20)
		a, b := randomNode(r, 12), randomNode(r, 12)
		s := NewSolver(n)
		s.Solve()
		z, ohms := s.Seen(a, b)
		near(t, fmt.Sprintf("seed %d ac", seed), z, oracle.Between(12, linesAC(n), int(a), int(b)))
		near(t, fmt.Sprintf("seed %d dc", seed), complex(ohms, 0), oracle.Between(12, linesDC(n), int(a), int(b)))
	}
}

func near(t *testing.T, what string, got, want complex128) {
	t.Helper()
	if cmplx.Abs(got-want) > 1e-12*cmplx.Abs(want) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

func TestSeenIsInfiniteWhereNoWayLeads(t *testing.T) {
	t.Parallel()
	n := &Network{}
	a, b, c := n.Node("a"), n.Node("b"), n.Node("c")
	ohms(n, "pair", a, b, 47)
	ohms(n, "stake", c, Earth, 20)
	s := NewSolver(n)
	s.Solve()
	for _, pair := range [][2]Node{{a, c}, {c, a}, {a, Earth}, {Earth, b}} {
		if z, r := s.Seen(pair[0], pair[1]); !cmplx.IsInf(z) || !math.IsInf(r, 1) {
			t.Errorf("%s to %s: %v and %v, want infinite", n.Name(pair[0]), n.Name(pair[1]), z, r)
		}
	}
	if z, r := s.Seen(a, b); math.Abs(r-47) > 1e-12 || cmplx.Abs(z-47) > 1e-12 {
		t.Errorf("in the island: %v and %v, want 47", z, r)
	}
	if z, r := s.Seen(c, c); z != 0 || r != 0 {
		t.Errorf("a node to itself: %v and %v, want 0", z, r)
	}
}

// TestMeterOnAnIslandTakesItToTheOtherLead has a battery that nothing else
// holds: the black lead gives it its potential and no current flows.
func TestMeterOnAnIslandTakesItToTheOtherLead(t *testing.T) {
	t.Parallel()
	n := &Network{}
	plus, minus, live := n.Node("plus"), n.Node("minus"), n.Node("live")
	n.Add(Branch{Name: "battery", From: plus, To: minus, Y: 1, G: 1, EDC: 3})
	ohms(n, "load", plus, minus, 2)
	n.Add(Branch{Name: "supply", From: live, To: Earth, Y: 4, G: 4, E: 240})
	s := NewSolver(n)
	s.Solve()
	for _, leads := range [][2]Node{{minus, live}, {live, minus}} {
		v := s.Load(leads[0], leads[1], 1e-7, 1e-7)
		if d := cmplx.Abs(v.AC(plus) - 240); d > 1e-9 || v.DC(minus) != 0 || v.DC(plus) != 2 {
			t.Errorf("plus stands at %v ac and %v dc, minus at %v, want 240, 2 and 0", v.AC(plus), v.DC(plus), v.DC(minus))
		}
		if ac, dc := v.Drawn(); ac != 0 || dc != 0 {
			t.Errorf("the meter draws %v and %v, want nothing", ac, dc)
		}
	}
}
