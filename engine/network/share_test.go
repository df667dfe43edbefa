package network

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// changed is a network with branches added, landed elsewhere, left out or of
// other values.
func changed(r *rand.Rand, n *Network) *Network {
	out := n.Clone()
	for range r.IntN(4) {
		b := branchOf(r.IntN(kinds), r.Float64(), r.Float64())
		b.From, b.To = randomNode(r, len(n.Names)), randomNode(r, len(n.Names))
		out.Add(b)
	}
	last := &out.Branches[len(out.Branches)-1]
	last.To = randomNode(r, len(n.Names))
	if r.IntN(2) == 0 {
		out.Branches = out.Branches[:len(out.Branches)-1]
	}
	at := len(n.Names) + r.IntN(5)
	out.Branches[at].Y, out.Branches[at].G = 0.02, 0.02
	return out
}

func TestSharedPatternSolvesOtherNetworksToo(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 9))
	n := randomNetwork(r, 12, 18)
	first, moving := NewSolver(n), NewSolver(n)
	moving.Set(15, 7, 7)
	moving.Solve()
	for round := range 40 {
		other := changed(r, n)
		if round%4 == 0 {
			other = n
		}
		shared := first.Share(other)
		shared.Solve()
		judged(t, fmt.Sprintf("round %d shared", round), other, shared)
		moving.Take(other)
		moving.Solve()
		judged(t, fmt.Sprintf("round %d taken", round), other, moving)
	}
}

func TestSharingWithOtherNodesAnalysesAfresh(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(2, 9))
	s := NewSolver(randomNetwork(r, 5, 10))
	n := randomNetwork(r, 9, 20)
	shared := s.Share(n)
	shared.Solve()
	judged(t, "shared", n, shared)
	s.Take(n)
	s.Solve()
	judged(t, "taken", n, s)
}

// TestSharedPatternIsTheOldOneWhereJoinedAlike keeps sharing cheap: the very
// same pattern, not one like it.
func TestSharedPatternIsTheOldOneWhereJoinedAlike(t *testing.T) {
	t.Parallel()
	n := plantlike(rand.New(rand.NewPCG(3, 9)))
	s := NewSolver(n)
	if o := s.Share(n.Clone()); o.ac.t != s.ac.t {
		t.Error("the same topology was laid out again")
	}
	n.Branches = n.Branches[:300]
	if o := s.Share(n); o.ac.t.p != s.ac.t.p {
		t.Error("a network with fewer branches was analysed again")
	}
}
