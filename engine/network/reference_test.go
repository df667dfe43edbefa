package network

import (
	"math"
	"math/cmplx"
	"os"
	"strconv"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// published are circuits with known answers; the sources are in the file.
type published struct {
	Two struct {
		Elements []string
		Solution `yaml:",inline"`
		Faults   map[string]Solution `yaml:",inline"`
	} `yaml:"two_sources"`
	Textbook struct {
		Elements []string
		Solution `yaml:",inline"`
	} `yaml:"two_node_textbook"`
	String map[string][3]float64 `yaml:"control_string_24V"`
}

// Solution is volts by node and amperes by source, from its plus through it.
type Solution struct {
	V, I map[string]float64
}

func readPublished(t *testing.T) published {
	t.Helper()
	src, err := os.ReadFile("../../testdata/reference/algorithms/09_mna_circuits.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var p published
	if err := yaml.Unmarshal(src, &p); err != nil {
		t.Fatal(err)
	}
	return p
}

// circuit reads elements such as "R1 1 0 2" and "V1 2 1 32"; a source has 1 µΩ,
// as a branch must have some.
func circuit(t *testing.T, elements []string) (n *Network, of map[string]int) {
	t.Helper()
	n, of = &Network{}, map[string]int{}
	node := func(s string) Node {
		if s == "0" {
			return Earth
		}
		return n.Node(s)
	}
	for _, e := range elements {
		w := strings.Fields(e)
		value, err := strconv.ParseFloat(w[3], 64)
		if err != nil {
			t.Fatal(err)
		}
		b := Branch{Name: w[0], From: node(w[1]), To: node(w[2]), Y: complex(1/value, 0), G: 1 / value}
		if w[0][0] == 'V' {
			b.Y, b.G, b.E, b.EDC = 1e6, 1e6, complex(value, 0), value
		}
		of[w[0]] = n.Add(b)
	}
	return n, of
}

// meets holds a solver against a solution: to 1e-6, and 1e-4 V for what only a
// short of 1 µΩ keeps from 0.
func (want Solution) meets(t *testing.T, what string, n *Network, of map[string]int, s *Solver) {
	t.Helper()
	if len(want.V) == 0 {
		t.Errorf("%s: no voltages in the file", what)
	}
	ok := func(got, want float64) bool { return math.Abs(got-want) <= 1e-6*math.Abs(want)+1e-4 }
	for name, v := range want.V {
		node, _ := n.Find(name)
		if !ok(s.DC(node), v) || !ok(real(s.AC(node)), v) {
			t.Errorf("%s: node %s at %v dc and %v ac, want %v", what, name, s.DC(node), s.AC(node), v)
		}
	}
	for name, i := range want.I {
		if !ok(s.AmpsDC(of[name]), i) || !ok(real(s.Amps(of[name])), i) {
			t.Errorf("%s: %s carries %v dc and %v ac, want %v", what, name, s.AmpsDC(of[name]), s.Amps(of[name]), i)
		}
	}
}

func TestPublishedCircuitsComeOut(t *testing.T) {
	t.Parallel()
	p := readPublished(t)
	n, of := circuit(t, p.Textbook.Elements)
	s := NewSolver(n)
	s.Solve()
	p.Textbook.meets(t, "textbook", n, of, s)

	n, of = circuit(t, p.Two.Elements)
	s = NewSolver(n)
	s.Solve()
	p.Two.meets(t, "two sources", n, of, s)
	if len(p.Two.Faults) != 2 {
		t.Errorf("%d faults in the file, want 2", len(p.Two.Faults))
	}
	for name, want := range p.Two.Faults {
		w := strings.Split(name, "_") // fault_R2_open
		y := map[string]float64{"open": 0, "short": 1e6}[w[2]]
		s.Take(n)
		s.Set(of[w[1]], complex(y, 0), y)
		s.Solve()
		want.meets(t, name, n, of, s)
	}
}

// TestControlStringReadsAsWorkedOut is a fuse, a contact, a coil and the return
// on 24 V, and a meter of 10 MΩ after each of the first three.
func TestControlStringReadsAsWorkedOut(t *testing.T) {
	t.Parallel()
	rows := readPublished(t).String
	if len(rows) != 6 {
		t.Errorf("%d rows in the file, want 6", len(rows))
	}
	for row, want := range rows {
		n, of := circuit(t, []string{"V24 plus 0 24", "fuse plus a 0.1", "contact a b 0.05", "coil b c 180", "return c 0 0.1"})
		if part, ok := strings.CutSuffix(row, "_open"); ok {
			n.Branches[of[part]].Y, n.Branches[of[part]].G = 0, 0
		}
		if row == "contact_60_ohm" {
			n.Branches[of["contact"]].Y, n.Branches[of["contact"]].G = 1/60.0, 1/60.0
		}
		s := NewSolver(n)
		s.Solve()
		for i, name := range []string{"a", "b", "c"} {
			at, _ := n.Find(name)
			v := s.Load(at, Earth, 1e-7, 1e-7)
			if d := math.Abs(v.DC(at) - want[i]); d > 5.1e-5 {
				t.Errorf("%s: %s reads %v dc, want %v", row, name, v.DC(at), want[i])
			}
			if d := cmplx.Abs(v.AC(at) - complex(want[i], 0)); d > 5.1e-5 {
				t.Errorf("%s: %s reads %v ac, want %v", row, name, v.AC(at), want[i])
			}
		}
	}
}
