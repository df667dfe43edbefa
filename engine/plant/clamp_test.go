package plant_test

import (
	"testing"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// clamped takes a clamp's reading at a point.
func clamped(t *testing.T, s *plant.Subject, q measurements.Quantity, at, side string, calls ...string) (plant.Result, error) {
	t.Helper()
	c := &trees.BoundCheck{ID: "clamp", Quantity: q, Probes: []trees.BoundProbe{{From: point(t, s, at), FromSide: side}}}
	c.Need.Calls = map[string]bool{}
	for _, call := range calls {
		c.Need.Calls[call] = true
	}
	return s.Answer(c, plant.How{})
}

// TestClampReadsTheCurrentThatIsThere: 240 V over 1000 Ω, 2 Ω of mains and about
// a third of an ohm of cable and joints are 0.239 A, the same all round the circuit.
func TestClampReadsTheCurrentThatIsThere(t *testing.T) {
	t.Parallel()
	s := bench(t).New(nil, nil)
	for _, c := range []struct{ at, side string }{{"in-live", ""}, {"in-live", "feed-live"}, {"call", "lamp"}, {"neutral", "feed-neutral"}, {"call", ""}} {
		r, err := clamped(t, s, measurements.Amps, c.at, c.side, "heat")
		if err != nil {
			t.Fatal(err)
		}
		near(t, "amperes at "+c.at+" "+c.side, r.Values[0], 240/1002.3, 2e-4)
		if r, _ = clamped(t, s, measurements.Amps, c.at, c.side); r.Values[0] > 1e-3 {
			t.Errorf("nothing called: %g A at %s", r.Values[0], c.at)
		}
	}
}

// TestLeakageIsWhatDoesNotComeBack: 100 kΩ from live to earth take 2.4 mA past
// the neutral, lamp or no lamp; the sound plant leaks microamperes, over its cable.
func TestLeakageIsWhatDoesNotComeBack(t *testing.T) {
	t.Parallel()
	m := bench(t, "do: [open feed-live@to]", "do: [add in-live earth 100000 ohms]")
	for id, want := range map[string]float64{"no-live": 0.0024, "": 0} {
		s := m.New(m.Fault(id), nil)
		for _, calls := range [][]string{nil, {"heat"}} {
			r, err := clamped(t, s, measurements.Leakage, "in-live", "", calls...)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "leakage", r.Values[0], want, 1e-4)
		}
	}
}

func TestClampWithNothingToGoRoundSaysSo(t *testing.T) {
	t.Parallel()
	m := bench(t, "  - {id: earth, in: box,", "  - {id: lid, words: the lid}\n  - {id: earth, in: box,")
	if _, err := clamped(t, m.New(nil, nil), measurements.Amps, "lid", ""); err == nil {
		t.Error("a clamp round nothing reads something")
	}
}
