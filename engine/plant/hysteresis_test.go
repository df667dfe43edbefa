package plant

import (
	"testing"

	"faultwalk/engine/network"
)

// fed is a network on which everything reads alike.
type fed struct{ volts, amps float64 }

func (f fed) Volts(_, _ network.Node) float64   { return f.volts }
func (f fed) VoltsDC(_, _ network.Node) float64 { return f.volts }
func (f fed) Amps(int) complex128               { return complex(f.amps, 0) }
func (f fed) AmpsDC(int) float64                { return f.amps }

// coils are what pulls in above one value and lets go below another, in A or V:
// small synchronous valve motors and relays hold at about half of what moves
// them. Common practice, no source.
var coils = []struct {
	kind, variable  string
	pullsIn, letsGo float64
}{
	{"two-port", "open", 0.030, 0.015},
	{"zone-valve", "open", 0.030, 0.015},
	{"spring-diverter", "driven", 0.030, 0.015},
	{"coil", "pulled_in", 0.010, 0.004},
	{"diverter", "pulled_in", 130, 70},
}

func TestCoilHoldsWithLessThanItPullsInWith(t *testing.T) {
	t.Parallel()
	for _, c := range coils {
		s, at := onePart(t, c.kind, c.variable)
		for _, x := range []struct{ reads, want float64 }{
			{c.pullsIn * 0.99, 0}, {c.pullsIn * 1.01, 1}, {c.letsGo * 1.01, 1}, {c.letsGo * 0.99, 0}} {
			if s.v[at] = ruled(s, at, fed{x.reads, x.reads}); s.v[at] != x.want {
				t.Errorf("a %s: %s is %g at %g, want %g", c.kind, c.variable, s.v[at], x.reads, x.want)
			}
		}
	}
}

// onePart is a healthy plant at rest with a part of a kind, and a variable of it.
func onePart(t *testing.T, kind, variable string) (*Subject, int) {
	t.Helper()
	for _, plant := range []string{"millrace-small", "millrace-large", "millrace-spur", "millrace-volt-free"} {
		m := embedded(t, plant)
		for _, part := range m.Plant.Parts {
			if at, known := m.varAt[part.ID+"."+variable]; known && part.Kind == kind {
				return m.New(nil, nil), at
			}
		}
	}
	t.Fatalf("no plant has a %s with %q", kind, variable)
	return nil, 0
}

// ruled is what the rule of a variable gives on a network.
func ruled(s *Subject, variable int, on reader) float64 {
	s.meter, s.stale = on, false
	for i := range s.m.rules {
		if r := &s.m.rules[i]; r.set == variable {
			return r.to(s)
		}
	}
	return -1
}
