package network

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// faulty is a plant-like network and copies of it with a fault each: a branch
// open, or of another resistance, or added. Each has a meter of 1 MΩ at
// another place.
func faulty(count int) []*Network {
	healthy := plantlike(rand.New(rand.NewPCG(7, 7)))
	r := rand.New(rand.NewPCG(8, 8))
	list := []*Network{healthy.Clone()}
	for i := 1; i < count; i++ {
		n := healthy.Clone()
		b := &n.Branches[r.IntN(len(n.Branches)-len(n.Names))]
		switch i % 3 {
		case 0:
			b.Y, b.G = 0, 0
		case 1:
			b.Y, b.G = 1/2000.0, 1/2000.0
		case 2:
			ohms(n, "bridge", randomNode(r, len(n.Names)), randomNode(r, len(n.Names)), 4000)
		}
		list = append(list, n)
	}
	for i, n := range list {
		ohms(n, fmt.Sprintf("meter %d", i%5), Node(10*(i%5)+8), Node(12), 1e6)
	}
	return list
}

func TestLoopOverNetworksIsEachOfThemToNgspice(t *testing.T) {
	t.Parallel()
	list := faulty(30)
	var deck bytes.Buffer
	if err := NetlistLoop(&deck, "faults", list, 50, true); err != nil {
		t.Fatal(err)
	}
	got := ngspice(t, deck.Bytes(), len(list[0].Names))
	if len(got) != len(list) {
		t.Fatalf("%d networks came back, want %d", len(got), len(list))
	}
	for i, n := range list {
		against(t, fmt.Sprintf("network %d", i), got[i], n)
	}
}

func TestLoopRefusesNetworksOfOtherNodes(t *testing.T) {
	t.Parallel()
	a, b := &Network{Names: []string{"a"}}, &Network{Names: []string{"a", "b"}}
	err := NetlistLoop(&bytes.Buffer{}, "two", []*Network{a, b}, 50, false)
	if err == nil || !strings.Contains(err.Error(), "a network of 2 nodes, expected 1") {
		t.Errorf("error %v", err)
	}
	if err := NetlistLoop(&bytes.Buffer{}, "none", nil, 50, false); err == nil {
		t.Error("a loop over nothing was written")
	}
}

// BenchmarkAgainstNgspice solves the same faulty networks, ac and dc with a
// meter, here and in one ngspice process, whose start and the first network
// are not counted, and reports the ratio.
func BenchmarkAgainstNgspice(b *testing.B) {
	if _, err := exec.LookPath("ngspice"); err != nil {
		b.Skip("ngspice is not installed")
	}
	list := faulty(101)
	theirs := (looped(b, list) - looped(b, list[:1])) / time.Duration(len(list)-1)
	for _, n := range list {
		n.Branches = n.Branches[:len(n.Branches)-1]
	}
	s := NewSolver(list[0])
	b.ResetTimer()
	for i := range b.N {
		s.Take(list[1+i%(len(list)-1)])
		s.Solve()
		s.Load(Node(10*(i%5)+8), 12, 1e-6, 1e-6).Volts(10, 12)
	}
	ours := b.Elapsed() / time.Duration(b.N)
	b.ReportMetric(float64(theirs.Nanoseconds()), "ngspice-ns/op")
	b.ReportMetric(float64(theirs)/float64(ours), "times-faster")
}

// looped is how long ngspice takes over a list of networks.
func looped(b *testing.B, list []*Network) time.Duration {
	var deck bytes.Buffer
	if err := NetlistLoop(&deck, "faults", list, 50, false); err != nil {
		b.Fatal(err)
	}
	file := b.TempDir() + "/deck.cir"
	if err := os.WriteFile(file, deck.Bytes(), 0o600); err != nil {
		b.Fatal(err)
	}
	start := time.Now()
	if out, err := exec.Command("ngspice", "-b", file).CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	return time.Since(start)
}
