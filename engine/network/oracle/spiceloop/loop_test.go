package spiceloop_test

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"faultwalk/engine/network"
	"faultwalk/engine/network/oracle"
	"faultwalk/engine/network/oracle/spiceloop"
)

// chain is a row of nodes behind an ac and a dc supply, a branch of each form
// from one to the next and a load at each.
func chain(nodes int) *network.Network {
	n := &network.Network{}
	supply := n.Node("node.0")
	n.Add(network.Branch{Name: "mains", From: supply, To: network.Earth, Y: 4, G: 4, E: 240, EDC: 13})
	forms := []network.Branch{{Y: 0.5, G: 0.5}, {Y: 2e-3i}, {Y: 1 / (100 - 3000i)}, {Y: 1 / (100 + 3000i), G: 0.01}, {Y: 1e-3 + 2e-3i, G: 5e-3}, {Y: 1 / (100 + 3000i)}}
	for i := 1; i < nodes; i++ {
		b := forms[i%len(forms)]
		b.Name, b.From, b.To = fmt.Sprint("branch ", i), network.Node(i-1), n.Node(fmt.Sprint("node.", i))
		n.Add(b)
		n.Add(network.Branch{Name: fmt.Sprint("load ", i), From: b.To, To: network.Earth, Y: 1 / 1500.0, G: 1 / 1500.0})
	}
	return n
}

// faulty is a chain and copies of it with a fault each: a branch open, or of
// another resistance, or one more.
func faulty(count int) []*network.Network {
	r := rand.New(rand.NewPCG(8, 8))
	list := []*network.Network{chain(14)}
	for i := 1; i < count; i++ {
		n := list[0].Clone()
		b := &n.Branches[r.IntN(len(n.Branches))]
		switch i % 3 {
		case 0:
			b.Y, b.G = 0, 0
		case 1:
			b.Y, b.G = 1/2000.0, 1/2000.0
		case 2:
			n.Add(network.Branch{Name: "bridge", From: network.Node(r.IntN(14)), To: network.Node(r.IntN(15) - 1), Y: 1 / 4000.0, G: 1 / 4000.0})
		}
		list = append(list, n)
	}
	return list
}

func TestLoopOverNetworksIsEachOfThemToNgspice(t *testing.T) {
	t.Parallel()
	list := faulty(30)
	var deck bytes.Buffer
	if err := spiceloop.Write(&deck, "faults", list, 50, true); err != nil {
		t.Fatal(err)
	}
	for i, p := range ngspice(t, deck.Bytes(), len(list[0].Names), len(list)) {
		s := network.NewSolver(list[i])
		s.Solve()
		ac, dc := lines(list[i].Held())
		if _, err := oracle.Judge(p.AC, func(v int) complex128 { return s.AC(network.Node(v)) }, ac); err != nil {
			t.Errorf("network %d ac: %v", i, err)
		}
		if _, err := oracle.Judge(p.DC, func(v int) complex128 { return complex(s.DC(network.Node(v)), 0) }, dc); err != nil {
			t.Errorf("network %d dc: %v", i, err)
		}
	}
}

// lines is a network as the oracle takes it.
func lines(n *network.Network) (ac, dc []oracle.Line) {
	for _, b := range n.Branches {
		ac = append(ac, oracle.Line{From: int(b.From), To: int(b.To), Y: b.Y, E: b.E})
		dc = append(dc, oracle.Line{From: int(b.From), To: int(b.To), Y: complex(b.G, 0), E: complex(b.EDC, 0)})
	}
	return ac, dc
}

// ngspice runs a deck in batch and reads what it printed.
func ngspice(t *testing.T, deck []byte, nodes, networks int) []oracle.Printed {
	t.Helper()
	path, err := exec.LookPath("ngspice")
	if err != nil {
		t.Skip("ngspice is not installed: the networks are not held against it")
	}
	file := filepath.Join(t.TempDir(), "deck.cir")
	if err := os.WriteFile(file, deck, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(path, "-b", file).Output()
	if err != nil {
		t.Fatalf("ngspice: %v\n%s", err, out)
	}
	all, err := oracle.Read(string(out), nodes)
	if err != nil || len(all) != networks {
		t.Fatalf("%d networks came back, want %d: %v", len(all), networks, err)
	}
	return all
}

func TestLoopAltersWhatChangesAlone(t *testing.T) {
	t.Parallel()
	list := faulty(2) // a branch of another resistance
	var deck bytes.Buffer
	if err := spiceloop.Write(&deck, "faults", list, 50, false); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(deck.String(), "\nalter "); n < 1 || n > 4 {
		t.Errorf("%d alterations for one branch:\n%s", n, deck.String())
	}
	if n := strings.Count(deck.String(), "\nac lin 1 50 50\n"); n != 2 || strings.Contains(deck.String(), "print") {
		t.Errorf("%d analyses for two networks that nobody prints", n)
	}
}

func TestLoopRefusesNetworksOfOtherNodes(t *testing.T) {
	t.Parallel()
	a, b := &network.Network{Names: []string{"a"}}, &network.Network{Names: []string{"a", "b"}}
	err := spiceloop.Write(&bytes.Buffer{}, "two", []*network.Network{a, b}, 50, false)
	if err == nil || !strings.Contains(err.Error(), "a network of 2 nodes, expected 1") {
		t.Errorf("error %v", err)
	}
	if err := spiceloop.Write(&bytes.Buffer{}, "none", nil, 50, false); err == nil {
		t.Error("a loop over nothing was written")
	}
}

func TestLoopGivesTheWritersError(t *testing.T) {
	t.Parallel()
	full := errors.New("the disk is full")
	if err := spiceloop.Write(failing{full}, "x", faulty(3), 50, true); !errors.Is(err, full) {
		t.Errorf("error %v, want %v", err, full)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
