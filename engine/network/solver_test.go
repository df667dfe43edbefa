package network

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"faultwalk/engine/network/oracle"
)

// sharp holds the volts of a solver against the oracle.
func sharp(t *testing.T, what string, want []complex128, got func(int) complex128) {
	t.Helper()
	if err := oracle.Sharp(want, got); err != nil {
		t.Errorf("%s: %v", what, err)
	}
}

// judged holds both networks of a solver, or of a view, against the oracle.
func judged(t *testing.T, what string, n *Network, s solved) {
	t.Helper()
	sharp(t, what+" ac", oracle.Solve(len(n.Names), linesAC(n)), phasors(s))
	sharp(t, what+" dc", oracle.Solve(len(n.Names), linesDC(n)), directs(s))
}

// solved is a solver or a view.
type solved interface {
	AC(Node) complex128
	DC(Node) float64
}

func phasors(s solved) func(int) complex128 { return func(v int) complex128 { return s.AC(Node(v)) } }
func directs(s solved) func(int) complex128 {
	return func(v int) complex128 { return complex(s.DC(Node(v)), 0) }
}

func linesAC(n *Network) []oracle.Line {
	var out []oracle.Line
	for _, b := range n.Branches {
		out = append(out, oracle.Line{From: int(b.From), To: int(b.To), Y: b.Y, E: b.E})
	}
	return out
}

func linesDC(n *Network) []oracle.Line {
	var out []oracle.Line
	for _, b := range n.Branches {
		out = append(out, oracle.Line{From: int(b.From), To: int(b.To), Y: complex(b.G, 0), E: complex(b.EDC, 0)})
	}
	return out
}

func TestRandomNetworksAgreeWithHighPrecision(t *testing.T) {
	t.Parallel()
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 1))
		n := randomNetwork(r, 3+r.IntN(12), 5+r.IntN(25))
		s := NewSolver(n)
		s.Solve()
		judged(t, fmt.Sprintf("seed %d", seed), n, s)
	}
}

func TestGigohmBehindTenMilliohmsKeepsItsDigits(t *testing.T) {
	t.Parallel()
	n := &Network{}
	a, b, c := n.Node("a"), n.Node("b"), n.Node("c")
	n.Add(Branch{From: a, To: Earth, Y: 4, G: 4, E: 240, EDC: 240})
	ohms(n, "joint", a, b, 0.01)
	ohms(n, "leak", b, c, 1e9)
	ohms(n, "leak", c, Earth, 1e9)
	s := NewSolver(n)
	s.Solve()
	for i, w := range oracle.Solve(3, linesDC(n)) {
		if d := math.Abs(s.DC(Node(i)) - real(w)); d > 1e-15*240 {
			t.Errorf("node %d is %.17g, want %.17g", i, s.DC(Node(i)), real(w))
		}
	}
}

// TestSourceInAnIsolatedCircuitKeepsItsDigits has 960 A of Norton's equivalent
// in a circuit that 10 GΩ hold: their rounding error alone would be a tenth of
// a volt.
func TestSourceInAnIsolatedCircuitKeepsItsDigits(t *testing.T) {
	t.Parallel()
	n := leaking(4)
	n.Add(Branch{Name: "supply", From: 0, To: 1, Y: 4, G: 4, E: 240, EDC: 240})
	ohms(n, "load", 0, 2, 10)
	ohms(n, "load", 2, 1, 30)
	ohms(n, "link", 1, 3, 3)
	s := NewSolver(n)
	s.Solve()
	judged(t, "isolated", n, s)
}

func TestChangedBranchesAndSourcesAreSolvedAgain(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 6))
	n := randomNetwork(r, 10, 25)
	s := NewSolver(n)
	s.Solve()
	for round := range 40 {
		i := r.IntN(len(n.Branches))
		b := branchOf(r.IntN(kinds), r.Float64(), r.Float64())
		if i < 10 {
			continue // the leaks stay: this test is of what hangs on earth
		}
		if round%3 == 0 {
			b.Y, b.G = n.Branches[i].Y, n.Branches[i].G // another EMF only
		}
		s.Set(i, b.Y, b.G)
		s.Source(i, b.E, b.EDC)
		s.Solve()
		b.From, b.To = n.Branches[i].From, n.Branches[i].To
		n.Branches[i] = b
		judged(t, fmt.Sprintf("round %d", round), n, s)
	}
}

func TestValueSetAgainCausesNoWork(t *testing.T) {
	t.Parallel()
	n := randomNetwork(rand.New(rand.NewPCG(2, 6)), 10, 25)
	s := NewSolver(n)
	s.Solve()
	for i, b := range n.Branches {
		s.Set(i, b.Y, b.G)
		s.Source(i, b.E, b.EDC)
	}
	if s.ac.altered() || s.dc.altered() || s.ac.restated || s.dc.restated {
		t.Error("the solver would work again though nothing changed")
	}
	s.Set(12, 3, n.Branches[12].G)
	if !s.ac.altered() || s.dc.altered() {
		t.Error("a change of the ac admittance alone must have only the ac network solved again")
	}
}

func TestBranchAtNoNodePanicsWithItsName(t *testing.T) {
	t.Parallel()
	defer func() {
		if got, want := fmt.Sprint(recover()), `network: branch 0 "stray" is at node 7, expected -1 to 0`; got != want {
			t.Errorf("panic %q, want %q", got, want)
		}
	}()
	NewSolver(&Network{Names: []string{"a"}, Branches: []Branch{{Name: "stray", From: 0, To: 7}}})
}

func TestNothingIsAllocatedOnceWarm(t *testing.T) {
	n := plantlike(rand.New(rand.NewPCG(1, 3)))
	s := NewSolver(n)
	i := 0
	round := func() {
		i++
		s.Set(80, complex(float64(1+i%3), 0), 1)
		s.Solve()
		s.Seen(3, 5)
		s.Load(7, 2, 1e-6, 1e-6).Volts(7, 2)
		s.Take(n)
	}
	round()
	if a := testing.AllocsPerRun(50, round); a != 0 {
		t.Errorf("%v allocations a round, want none", a)
	}
}

// TestWhatIsEliminatedAgainIsAsIfAllWere holds the columns that a change leaves
// alone: after any order of changes a solver is, to the last bit, what a new one
// of the same network is.
func TestWhatIsEliminatedAgainIsAsIfAllWere(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 6))
	n := plantlike(r)
	s := NewSolver(n)
	for round := range 60 {
		for range 1 + r.IntN(4) {
			b := &n.Branches[r.IntN(len(n.Branches))]
			if r.IntN(3) == 0 {
				b.Y, b.G = 0, 0
			} else {
				b.Y, b.G = complex(r.Float64(), r.Float64()-0.5), r.Float64()
			}
		}
		for i, b := range n.Branches {
			s.Set(i, b.Y, b.G)
		}
		s.Solve()
		fresh := NewSolver(n)
		fresh.Solve()
		for v := range n.Names {
			if a, b := s.AC(Node(v)), fresh.AC(Node(v)); a != b {
				t.Fatalf("round %d: %s stands at %v ac, a new solver has %v", round, n.Names[v], a, b)
			}
			if a, b := s.DC(Node(v)), fresh.DC(Node(v)); a != b {
				t.Fatalf("round %d: %s stands at %v dc, a new solver has %v", round, n.Names[v], a, b)
			}
		}
	}
}
