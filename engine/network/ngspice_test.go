package network

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"faultwalk/engine/network/oracle"
)

// ngspice runs a deck in batch and gives what it printed.
func ngspice(t testing.TB, deck []byte, nodes int) []oracle.Printed {
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
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// against holds a solved network against what ngspice printed for it.
func against(t *testing.T, what string, p oracle.Printed, n *Network) {
	t.Helper()
	s := NewSolver(n)
	s.Solve()
	if _, err := oracle.Judge(p.AC, phasors(s), linesAC(n)); err != nil {
		t.Errorf("%s ac: %v", what, err)
	}
	if _, err := oracle.Judge(p.DC, directs(s), linesDC(n)); err != nil {
		t.Errorf("%s dc: %v", what, err)
	}
}

func TestNetlistIsTheSameNetworkToNgspice(t *testing.T) {
	t.Parallel()
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 4))
		n := randomNetwork(r, 20, 50)
		if seed%2 == 1 {
			n = plantlike(r)
		}
		var deck bytes.Buffer
		if err := Netlist(&deck, "random\nnetwork", n, 50); err != nil {
			t.Fatal(err)
		}
		against(t, fmt.Sprintf("seed %d", seed), ngspice(t, deck.Bytes(), len(n.Names))[0], n)
	}
}
