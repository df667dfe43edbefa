package oracle

import (
	"math/cmplx"
	"strings"
	"testing"
)

// divider is 240 V behind 0.25 Ω on 1 MΩ, and two gigohms behind 10 mΩ.
var divider = []Line{
	{0, Earth, 4, 240}, {0, Earth, 1e-6, 0}, {0, 1, 100, 0}, {1, 2, 1e-9, 0}, {2, Earth, 1e-9, 0},
}

// TestDividerComesOutByHand is Ohm's law, worked out by hand.
func TestDividerComesOutByHand(t *testing.T) {
	t.Parallel()
	got := Solve(3, divider)
	want := 240 / (1 + 0.25*(1e-6+1/2.00000000001e9))
	for i, w := range []float64{want, want * 2e9 / 2.00000000001e9, want * 1e9 / 2.00000000001e9} {
		if cmplx.Abs(got[i]-complex(w, 0)) > 1e-13*240 {
			t.Errorf("node %d: %v, want %v", i, got[i], w)
		}
	}
	if z := Between(3, divider, 1, 2); cmplx.Abs(z-5e8) > 1 {
		t.Errorf("1 to 2 is %v Ω, want two gigohms side by side", z)
	}
}

func TestJudgeLetsTheExactSolutionDecide(t *testing.T) {
	t.Parallel()
	exact := Solve(3, divider)
	ours := func(v int) complex128 { return exact[v] }
	if appealed, err := Judge(exact, ours, divider); appealed || err != nil {
		t.Errorf("the same volts: appealed %v, %v", appealed, err)
	}
	wrong := append([]complex128(nil), exact...)
	wrong[2] += 1e-3
	if appealed, err := Judge(wrong, ours, divider); !appealed || err != nil {
		t.Errorf("ngspice wrong: appealed %v, %v", appealed, err)
	}
	_, err := Judge(exact, func(v int) complex128 { return wrong[v] }, divider)
	if err == nil || !strings.Contains(err.Error(), "node 2: got") || strings.Contains(err.Error(), "node 1") {
		t.Errorf("ours wrong: %v, want node 2 alone named", err)
	}
}

func TestPrintedVoltsAreReadByNetworkAndNode(t *testing.T) {
	t.Parallel()
	out := "Circuit: * x\n\nv(n0_a) = 1.5e+00\nv(n1_b) = -2.0e+00\nNo. of Data Rows : 1\nv(n0_a) = 3.0e+00,4.0e+00\nv(n1_b) = 5.0e+00,-6.0e+00\n"
	got, err := Read(out+out, 2)
	if err != nil || len(got) != 2 || got[1].DC[1] != -2 || got[1].AC[1] != 5-6i {
		t.Errorf("got %v, %v", got, err)
	}
	for text, want := range map[string]string{
		"v(n0_a) = 1\n":    "printed 1 voltages, expected a multiple of 4",
		"v(n0_a) = nine\n": `printed "v(n0_a) = nine", expected a number`,
		"":                 "printed 0 voltages",
	} {
		if _, err := Read(text, 2); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}
