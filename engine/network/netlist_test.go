package network

import (
	"bytes"
	"errors"
	"math/cmplx"
	"strings"
	"testing"
)

func written(t *testing.T, n *Network) string {
	t.Helper()
	var deck bytes.Buffer
	if err := Netlist(&deck, "two\nlines", n, 50); err != nil {
		t.Fatal(err)
	}
	return deck.String()
}

func TestNetlistSpellsNodesSafelyAndMapsThemBack(t *testing.T) {
	t.Parallel()
	n := &Network{}
	a, b := n.Node("control-board.N/L"), n.Node("gnd")
	n.Add(Branch{Name: "supply", From: a, To: Earth, Y: 4, G: 4, E: 240, EDC: 0})
	n.Add(Branch{Name: "snubber\nof relay", From: a, To: b, Y: 1 / (100 - 31830i)})
	n.Add(Branch{Name: "open contact", From: a, To: b})
	ohms(n, "coil", b, Earth, 2000)
	got := written(t, n)
	for _, want := range []string{
		"* two lines\n", "* n0_control_board_n_l = control-board.N/L\n", "* n1_gnd = gnd\n",
		"* supply\nV0 n0_control_board_n_l e0 DC 0 AC 240 0\nR0 e0 0 0.25\n",
		"* snubber of relay\nR1 n0_control_board_n_l x1 99.99999", "\nC1 x1 n1_gnd 1.00003", "R3 n1_gnd 0 2000\n",
		"\nop\nprint v(n0_control_board_n_l)\nprint v(n1_gnd)\nac lin 1 50 50\nprint v(n0_control_board_n_l)\n", "quit\n.endc\n.end\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if strings.Contains(got, "contact") {
		t.Errorf("the open contact is in\n%s", got)
	}
}

// TestEveryFormOfBranchIsItselfToNgspice has one branch of each form behind a
// source with a phase, and parts that float at dc, at ac and at both.
func TestEveryFormOfBranchIsItselfToNgspice(t *testing.T) {
	t.Parallel()
	n := &Network{}
	source := n.Node("source")
	n.Add(Branch{Name: "source", From: source, To: Earth, Y: 0.5, G: 0.25, E: cmplx.Rect(240, 2), EDC: -24})
	for _, b := range []Branch{
		{Name: "resistor", Y: 1e-3, G: 1e-3},
		{Name: "ac only", Y: 1e-3},
		{Name: "dc only", G: 1e-3},
		{Name: "capacitor", Y: 1e-3i},
		{Name: "lossy", Y: 1e-10 + 1e-3i},
		{Name: "bypassed", Y: 1e-3 + 2e-3i, G: 5e-3},
		{Name: "leaky", Y: 3e-3i, G: 1e-9},
		{Name: "series", Y: 1 / (100 - 3000i)},
		{Name: "coil", Y: 1 / (100 + 3000i), G: 0.01},
		{Name: "pure coil", Y: 1 / 3000i, G: 1e3},
		{Name: "coil behind dc", Y: 1 / (100 + 3000i)},
	} {
		at := n.Node(b.Name)
		b.From, b.To = source, at
		n.Add(b)
		ohms(n, "load", at, Earth, 1500)
	}
	far, further := n.Node("far"), n.Node("further")
	n.Add(Branch{Name: "battery", From: far, To: further, Y: 1, G: 1, EDC: 9})
	ohms(n, "bulb", far, further, 3)
	n.Add(Branch{Name: "coupling", From: source, To: n.Node("coupled"), Y: 1e-9i})

	var deck bytes.Buffer
	if err := Netlist(&deck, "forms", n, 50); err != nil {
		t.Fatal(err)
	}
	against(t, "forms", ngspice(t, deck.Bytes(), len(n.Names))[0], n.Held())
}

func TestNetlistSaysWhatFloats(t *testing.T) {
	t.Parallel()
	n := &Network{}
	n.Add(Branch{Name: "coupling", From: n.Node("adrift"), To: Earth, Y: 1e-9i})
	got := written(t, n)
	if !strings.Contains(got, "* adrift floats at dc: held at 0 V\nR1 n0_adrift 0 1 ac=") || strings.Contains(got, "floats at ac") {
		t.Errorf("the island at dc alone is not held in\n%s", got)
	}
}

func TestNetlistGivesTheWritersError(t *testing.T) {
	t.Parallel()
	full := errors.New("the disk is full")
	if err := Netlist(failing{full}, "x", leaking(3), 50); !errors.Is(err, full) {
		t.Errorf("error %v, want %v", err, full)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
