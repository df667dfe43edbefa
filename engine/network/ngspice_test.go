package network

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// run is what ngspice printed for one network: volts by node.
type run struct{ dc, ac []complex128 }

// ngspice runs a deck in batch and gives the runs of its networks.
func ngspice(t testing.TB, deck []byte, nodes int) []run {
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
	return runs(t, string(out), nodes)
}

// runs reads the printed volts, a dc block and an ac block of every node for
// each network.
func runs(t testing.TB, out string, nodes int) []run {
	t.Helper()
	var volts []complex128
	for l := range strings.Lines(out) {
		name, value, ok := strings.Cut(l, " = ")
		if !ok || !strings.HasPrefix(name, "v(n") {
			continue
		}
		var re, im float64
		if n, _ := fmt.Sscanf(strings.TrimSpace(value), "%g,%g", &re, &im); n == 0 {
			t.Fatalf("ngspice printed %q, expected a number", l)
		}
		volts = append(volts, complex(re, im))
	}
	if len(volts) == 0 || len(volts)%(2*nodes) != 0 {
		t.Fatalf("ngspice printed %d voltages, expected a multiple of %d:\n%s", len(volts), 2*nodes, out)
	}
	var all []run
	for ; len(volts) > 0; volts = volts[2*nodes:] {
		all = append(all, run{volts[:nodes], volts[nodes : 2*nodes]})
	}
	return all
}

// hold holds a solved network against what ngspice printed for it. In a part
// that only gigohms hold, ngspice keeps a rounding error of microvolts, as it
// adds them to siemens: where the two differ the oracle judges, and far more
// sharply.
func (r run) hold(t *testing.T, what string, n *Network) {
	t.Helper()
	s := NewSolver(n)
	s.Solve()
	judge(t, what+" ac", r.ac, s.AC, linesAC(n))
	judge(t, what+" dc", r.dc, func(v Node) complex128 { return complex(s.DC(v), 0) }, linesDC(n))
}

func judge(t *testing.T, what string, theirs []complex128, ours func(Node) complex128, lines []line) {
	t.Helper()
	most := largest(theirs)
	for i, v := range theirs {
		if !same(ours(Node(i)), v, most) {
			sharp(t, what, oracle(len(theirs), lines), ours)
			return
		}
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
		ngspice(t, deck.Bytes(), len(n.Names))[0].hold(t, fmt.Sprintf("seed %d", seed), n)
	}
}
