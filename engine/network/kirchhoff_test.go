package network

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"
)

// drawn is a network of rapid's choice, which it makes smaller when it fails;
// some of its nodes may float.
func drawn(t *rapid.T) *Network {
	nodes := rapid.IntRange(1, 12).Draw(t, "nodes")
	n := leaking(nodes)
	if rapid.Bool().Draw(t, "nothing leaks") {
		n.Branches = nil
	}
	for i := range rapid.IntRange(0, 30).Draw(t, "branches") {
		b := branchOf(rapid.IntRange(0, kinds-1).Draw(t, "kind"),
			rapid.Float64Range(0, 1).Draw(t, "u"), rapid.Float64Range(0, 1).Draw(t, "v"))
		b.Name = fmt.Sprintf("branch.%d", i)
		b.From = Node(rapid.IntRange(-1, nodes-1).Draw(t, "from"))
		b.To = Node(rapid.IntRange(-1, nodes-1).Draw(t, "to"))
		n.Add(b)
	}
	return n
}

// TestCurrentsIntoEveryNodeSumToNothing is Kirchhoff's current law: what is
// left over is no more than rounding of the largest voltage lets through the
// node's own admittances.
func TestCurrentsIntoEveryNodeSumToNothing(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := drawn(t)
		s := NewSolver(n)
		s.Solve()
		amps := func(i int) complex128 { return s.Amps(i) }
		ampsDC := func(i int) complex128 { return complex(s.AmpsDC(i), 0) }
		balanced(t, "ac", n, amps, s.AC, func(b Branch) complex128 { return b.Y })
		balanced(t, "dc", n, ampsDC, func(v Node) complex128 { return complex(s.DC(v), 0) },
			func(b Branch) complex128 { return complex(b.G, 0) })
	})
}

// TestCurrentsSumToNothingUnderAMeter is the same with what the meter draws.
func TestCurrentsSumToNothingUnderAMeter(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := drawn(t)
		a := Node(rapid.IntRange(-1, len(n.Names)-1).Draw(t, "red"))
		b := Node(rapid.IntRange(-1, len(n.Names)-1).Draw(t, "black"))
		s := NewSolver(n)
		s.Solve()
		v := s.Load(a, b, 1e-6, 1e-6)
		meter := n.Add(Branch{Name: "meter", From: a, To: b, Y: 1e-6, G: 1e-6})
		amps := func(i int) complex128 {
			if i == meter {
				ac, _ := v.Drawn()
				return ac
			}
			return v.Amps(i)
		}
		balanced(t, "ac", n, amps, v.AC, func(b Branch) complex128 { return b.Y })
		if d := cmplx.Abs(v.AC(a) - v.AC(b) - 1e6*amps(meter)); d > 1e-9*(1+cmplx.Abs(v.AC(a))) {
			t.Fatalf("the meter draws %v at %v V", amps(meter), v.AC(a)-v.AC(b))
		}
	})
}

// balanced sums the currents at each node.
func balanced(t *rapid.T, what string, n *Network, amps func(int) complex128, volts func(Node) complex128, of func(Branch) complex128) {
	sum, through := make([]complex128, len(n.Names)), make([]float64, len(n.Names))
	most := 240.0
	for i := range n.Names {
		most = max(most, cmplx.Abs(volts(Node(i))))
	}
	for i, b := range n.Branches {
		for k, v := range []Node{b.From, b.To} {
			if v != Earth {
				sum[v] += amps(i) * complex(float64(1-2*k), 0)
				through[v] += cmplx.Abs(of(b)) * most
			}
		}
	}
	for i, s := range sum {
		if cmplx.Abs(s) > 1e-13*through[i] || math.IsNaN(real(s)) {
			t.Fatalf("%s: %v A are left over at %s, where %v A could flow", what, s, n.Names[i], through[i])
		}
	}
}
