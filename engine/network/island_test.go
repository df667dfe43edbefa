package network

import (
	"fmt"
	"math"
	"testing"
)

func TestIslandsAreFoundAndNamed(t *testing.T) {
	t.Parallel()
	n := &Network{}
	a, b, c, d := n.Node("a"), n.Node("b"), n.Node("c"), n.Node("d")
	n.Add(Branch{From: a, To: Earth, Y: 4, G: 4, E: 240})
	link := n.Add(Branch{From: a, To: b, Y: 10, G: 10})
	n.Add(Branch{From: b, To: c, Y: 1e-3i, G: 0})
	n.Add(Branch{From: c, To: d, Y: 3, G: 3, EDC: 5})
	s := NewSolver(n)
	s.Solve()
	named(t, "ac", s.IslandsAC(), nil)
	named(t, "dc", s.IslandsDC(), [][]string{{"c", "d"}})
	s.Set(link, 0, 0)
	s.Solve()
	named(t, "ac opened", s.IslandsAC(), [][]string{{"b", "c", "d"}})
	named(t, "dc opened", s.IslandsDC(), [][]string{{"b"}, {"c", "d"}})
	named(t, "both opened", s.Islands(), [][]string{{"b", "c", "d"}, {"b"}, {"c", "d"}})
	if s.AC(b) != 0 || s.AC(d) != 0 {
		t.Errorf("an island without a source stands at %v and %v, want exactly 0", s.AC(b), s.AC(d))
	}
	if v := s.VoltsDC(c, d); math.Abs(v-5) > 1e-12 {
		t.Errorf("the source in the island gives %v, want 5", v)
	}
}

// TestLeakOfAGigohmIsNoIsland is the other side: the smallest way to earth
// counts.
func TestLeakOfAGigohmIsNoIsland(t *testing.T) {
	t.Parallel()
	n := leaking(3)
	ohms(n, "joint", 0, 1, 0.01)
	s := NewSolver(n)
	s.Solve()
	named(t, "leaking", s.Islands(), nil)
	for i := range n.Names {
		s.Set(i, 0, 0)
	}
	s.Solve()
	named(t, "not leaking", s.Islands(), [][]string{{"node.0", "node.1"}, {"node.2"}})
}

func named(t *testing.T, what string, got, want [][]string) {
	t.Helper()
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%s: islands %v, want %v", what, got, want)
	}
}
