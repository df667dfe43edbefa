package network

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"
)

// largest is the largest voltage, at least one microvolt.
func largest(volts []complex128) float64 {
	m := 1e-6
	for _, v := range volts {
		m = max(m, cmplx.Abs(v))
	}
	return m
}

// same reports whether got is within 1e-6 of want, 1 µV, or 1e-7 of the
// network's largest voltage.
func same(got, want complex128, most float64) bool {
	d := cmplx.Abs(got - want)
	return d <= 1e-6*cmplx.Abs(want) || d <= 1e-6 || d <= 1e-7*most
}

func TestRandomNetworksAgreeWithHighPrecision(t *testing.T) {
	t.Parallel()
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 1))
		n := randomNetwork(r, 3+r.IntN(12), 5+r.IntN(25))
		s := NewSolver(n)
		s.Solve()
		sharp(t, fmt.Sprintf("seed %d ac", seed), oracle(len(n.Names), linesAC(n)), s.AC)
		sharp(t, fmt.Sprintf("seed %d dc", seed), oracle(len(n.Names), linesDC(n)),
			func(v Node) complex128 { return complex(s.DC(v), 0) })
	}
}

// sharp is the oracle's judgement: within 1e-11 of the largest voltage, or a
// tenth of a nanovolt.
func sharp(t *testing.T, what string, want []complex128, got func(Node) complex128) {
	t.Helper()
	most := largest(want)
	for i, w := range want {
		if g := got(Node(i)); cmplx.Abs(g-w) > 1e-10+1e-11*most {
			t.Errorf("%s node %d: got %v, want %v", what, i, g, w)
		}
	}
}

func TestGigohmBehindTenMilliohmsKeepsItsDigits(t *testing.T) {
	t.Parallel()
	n := &Network{}
	a, b, c := n.Node("a"), n.Node("b"), n.Node("c")
	n.Add(Branch{From: a, To: Earth, Y: 4, G: 4, E: 240, EDC: 240})
	n.Add(Branch{From: a, To: b, Y: 100, G: 100})
	n.Add(Branch{From: b, To: c, Y: 1e-9, G: 1e-9})
	n.Add(Branch{From: c, To: Earth, Y: 1e-9, G: 1e-9})
	s := NewSolver(n)
	s.Solve()
	want := oracle(3, linesDC(n))
	for i, w := range want {
		if d := math.Abs(s.DC(Node(i)) - real(w)); d > 1e-13*240 {
			t.Errorf("node %d is %.17g, want %.17g", i, s.DC(Node(i)), real(w))
		}
	}
}

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
		sharp(t, fmt.Sprintf("seed %d ac", seed), oracle(10, linesAC(n)), view.AC)
		sharp(t, fmt.Sprintf("seed %d dc", seed), oracle(10, linesDC(n)),
			func(v Node) complex128 { return complex(view.DC(v), 0) })
	}
}

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
	want(t, "ac", s.IslandsAC(), nil)
	want(t, "dc", s.IslandsDC(), [][]string{{"c", "d"}})
	s.Set(link, 0, 0)
	s.Solve()
	want(t, "ac opened", s.IslandsAC(), [][]string{{"b", "c", "d"}})
	want(t, "dc opened", s.IslandsDC(), [][]string{{"b"}, {"c", "d"}})
	if s.AC(b) != 0 || s.AC(d) != 0 {
		t.Errorf("an island without a source stands at %v and %v, want exactly 0", s.AC(b), s.AC(d))
	}
	if v := s.VoltsDC(c, d); math.Abs(v-5) > 1e-12 {
		t.Errorf("the source in the island gives %v, want 5", v)
	}
}

func want(t *testing.T, what string, got, want [][]string) {
	t.Helper()
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%s: islands %v, want %v", what, got, want)
	}
}

func TestNothingIsAllocatedOnceWarm(t *testing.T) {
	n := randomNetwork(rand.New(rand.NewPCG(1, 3)), 60, 120)
	s := NewSolver(n)
	i := 0
	round := func() {
		i++
		s.Set(80, complex(float64(1+i%3), 0), 1)
		s.Solve()
		s.Seen(3, 5)
		v := s.Load(7, 2, 1e-6, 1e-6)
		v.Volts(7, 2)
	}
	round()
	if a := testing.AllocsPerRun(50, round); a != 0 {
		t.Errorf("%v allocations a round, want none", a)
	}
}
