package plant_test

import (
	"math"
	"slices"
	"testing"

	"faultwalk/engine/network"
	"faultwalk/engine/plant"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// read takes one reading of the small plant; ohms are those of the meter.
func read(tb testing.TB, s *plant.Subject, q measurements.Quantity, from, to string, ohms float64, calls ...string) plant.Result {
	tb.Helper()
	c := &trees.BoundCheck{ID: "reading", Quantity: q, Probes: []trees.BoundProbe{{From: point(tb, s, from), To: point(tb, s, to)}}}
	c.Need.Calls = map[string]bool{}
	for _, id := range calls {
		c.Need.Calls[id] = true
	}
	r, err := s.Answer(c, plant.How{Specs: []measurements.ModeSpec{{InputOhms: ohms}}})
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

func point(tb testing.TB, s *plant.Subject, id string) *trees.Point {
	tb.Helper()
	pt := s.Model().Plant.Point(id)
	if pt == nil {
		tb.Fatalf("the plant has no point %q", id)
	}
	return pt
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %g, want %g within %g", what, got, want, within)
	}
}

// TestMeterThatPullsACoilInSaysSo: 300 Ω across the open contact in series with
// the coil of 1 kΩ put 240·1000/1302 = 184.3 V on it, more than the 180 V at
// which it pulls in; the meter itself is left with 55.3 V. By Ohm's law.
func TestMeterThatPullsACoilInSaysSo(t *testing.T) {
	t.Parallel()
	s := bench(t).New(nil, nil)
	r := read(t, s, measurements.ACVolts, "in-live", "call", 300)
	near(t, "across the contact", r.Values[0], 240*300.0/1302, 0.1)
	near(t, "drawn", r.Amps[0], 240/1302.0, 1e-3)
	if !slices.Equal(r.Moved, []string{"lamp.pulled_in"}) || len(r.Tripped) > 0 {
		t.Errorf("it moved %v and tripped %v, want the coil moved", r.Moved, r.Tripped)
	}
	s.Stand(plant.Standing{})
	if s.Variable("lamp.pulled_in") != 0 {
		t.Error("the coil is still in with the meter off again")
	}
}

// TestMeterThatMovesNothingSaysNothing: 10 kΩ leave the coil 21.8 V.
func TestMeterThatMovesNothingSaysNothing(t *testing.T) {
	t.Parallel()
	s := bench(t).New(nil, nil)
	for _, ohms := range []float64{10e3, 10e6} {
		r := read(t, s, measurements.ACVolts, "in-live", "call", ohms)
		near(t, "across the contact", r.Values[0], 240*ohms/(ohms+1002), 0.1)
		if len(r.Moved)+len(r.Tripped) > 0 {
			t.Errorf("%g Ω moved %v, tripped %v", ohms, r.Moved, r.Tripped)
		}
	}
}

// TestMeterThatTripsTheSupplySaysSo: 3 kΩ from live to earth draw 80 mA past a
// residual current device of 30 mA, and then there is nothing left to read.
func TestMeterThatTripsTheSupplySaysSo(t *testing.T) {
	t.Parallel()
	s := bench(t).New(nil, nil)
	r := read(t, s, measurements.ACVolts, "in-live", "earth", 3000)
	if len(r.Moved) == 0 || !slices.Equal(r.Tripped, []string{"residual current device unit"}) {
		t.Errorf("it moved %v and tripped %v, want the device of the supply", r.Moved, r.Tripped)
	}
	near(t, "drawn before it tripped", r.Amps[0], 0.08, 1e-3)
	near(t, "left to read", r.Values[0], 0, 0.1)
	if r := read(t, s, measurements.ACVolts, "in-live", "earth", 300e3); len(r.Tripped) > 0 || math.Abs(r.Values[0]-240) > 1 {
		t.Errorf("300 kΩ: %g V, tripped %v; want 240 V and nothing, for the meter before it is off", r.Values[0], r.Tripped)
	}
}

// TestOhmsAreReadByACurrentOfTheirOwn: dead, the coil of 1 kΩ is all there is
// between call and neutral; with the supply on the tester warns.
func TestOhmsAreReadByACurrentOfTheirOwn(t *testing.T) {
	t.Parallel()
	s := bench(t).New(nil, nil)
	c := &trees.BoundCheck{ID: "ohms", Quantity: measurements.Ohms, Probes: []trees.BoundProbe{{From: point(t, s, "call"), To: point(t, s, "neutral")}}}
	off := plant.How{Off: map[string]bool{"breaker": true}}
	r, err := s.Answer(c, off)
	if err != nil || r.Live {
		t.Fatalf("%v, live %v", err, r.Live)
	}
	near(t, "the coil", r.Values[0], 1000, 0.1)
	c.Need.Unplugged = []string{"lamp"}
	if r, _ = s.Answer(c, off); r.Values[0] < 1e9 {
		t.Errorf("with the plug parted %g Ω, want next to nothing conducting", r.Values[0])
	}
	c.Need.Unplugged, c.Need.Calls = nil, map[string]bool{"heat": true}
	if r, _ = s.Answer(c, plant.How{}); !r.Live {
		t.Error("240 V stand there and nobody warns")
	}
}

// TestProtectionActsWorstFirstAndAlone: a bolted fault to earth is an overload
// of the breaker many times over and of the residual current device a thousand
// times; the latter is the worse and acts alone.
func TestProtectionActsWorstFirstAndAlone(t *testing.T) {
	t.Parallel()
	m := bench(t, "do: [open feed-live@to]", "do: [add in-live earth 1 ohms]")
	s := m.New(m.Fault("no-live"), nil)
	s.Stand(plant.Standing{})
	if got := s.Word("device breaker tripped"); got != "leakage" {
		t.Errorf("the breaker shows %q, want leakage", got)
	}
	m = bench(t, "do: [open feed-live@to]", "do: [add in-live neutral 1 ohms]")
	s = m.New(m.Fault("no-live"), nil)
	if s.Stand(plant.Standing{}); s.Word("device breaker tripped") != "overcurrent" {
		t.Errorf("live to neutral it shows %q, want overcurrent", s.Word("device breaker tripped"))
	}
}

// shared gives the small plant a second supply behind a residual current device,
// and as its fault that the lamp's current goes home by that.
func shared(t *testing.T, rcd string) *plant.Model {
	t.Helper()
	return bench(t, "enclosures:", "  - {id: other, words: the other supply, breaker: B6, live: other-live, neutral: other-neutral, rcd: "+rcd+"}\nenclosures:",
		"devices:", `  - {id: other-live, in: board, role: live, words: the other live bar}
  - {id: other-neutral, in: board, role: neutral, words: the other neutral bar}
  - {id: other-way, in: board, role: live, words: the other way}
  - {id: other-end, in: board, role: live, words: the other end}
  - {id: other-back, in: board, role: neutral, words: the other way back}
devices:
  - {id: other-breaker, words: the other breaker, supply: other, lockable: true, poles: [{from: other-live, to: other-way}]}`,
		"calls:", "  - {id: other-core, words: the other core, from: other-way, to: other-end, area: 1.5, length: 1}\n"+
			"  - {id: other-return, words: the other neutral core, from: other-neutral, to: other-back, area: 1.5, length: 1}\ncalls:",
		"do: [open feed-live@to]", "do: [land feed-neutral at origin-neutral on other-neutral]")
}

// TestResidualCurrentIsThatOfEverySupplyBehindTheDevice: the 240 mA of a lamp
// that come by one supply and go home by another cancel where one device adds
// up both; where each has its own, both see them, and the first to act ends it.
func TestResidualCurrentIsThatOfEverySupplyBehindTheDevice(t *testing.T) {
	t.Parallel()
	for rcd, want := range map[string]int{"unit": 0, "other": 1} {
		m := shared(t, rcd)
		s := m.New(m.Fault("no-live"), nil)
		s.Stand(plant.Standing{Calls: map[string]bool{"heat": true}})
		tripped := 0
		for _, device := range []string{"breaker", "other-breaker"} {
			if s.Word("device "+device+" tripped") == "leakage" {
				tripped++
			}
		}
		if tripped != want {
			t.Errorf("the other supply on the device %q: %d devices tripped, want %d", rcd, tripped, want)
		}
	}
}

// TestResidualCurrentDevicePartsEverySupplyBehindIt: 3 kΩ to earth on one of two
// supplies behind a device darken both.
func TestResidualCurrentDevicePartsEverySupplyBehindIt(t *testing.T) {
	t.Parallel()
	for rcd, both := range map[string]bool{"unit": true, "other": false} {
		r := read(t, shared(t, rcd).New(nil, nil), measurements.ACVolts, "in-live", "earth", 3000)
		if !slices.Equal(r.Tripped, []string{"residual current device unit"}) {
			t.Errorf("80 mA to earth tripped %v, want the device of the supply", r.Tripped)
		}
		if got := slices.Contains(r.Moved, "device other-breaker tripped"); got != both {
			t.Errorf("the other supply on the device %q: the meter moved %v", rcd, r.Moved)
		}
	}
}

// TestEveryProtectionOverItsLimitActs: four limits of a lamp are passed at once
// and part nothing; each acts alone, and the next after it.
func TestEveryProtectionOverItsLimitActs(t *testing.T) {
	t.Parallel()
	variables, trips := "", "  trips:\n"
	for _, limit := range []string{"a", "b", "c", "d"} {
		variables += "    - {id: over_" + limit + ", first: false}\n"
		trips += "    - {id: " + limit + `, overload: 'amps("winding") / 2', set: over_` + limit + ", to: true}\n"
	}
	m := bench(t, "    - {id: mood, ", variables+"    - {id: mood, ", "  faults:\n    - id: open\n", trips+
		"  faults:\n    - {id: shorted, words: shorted, weight: 1, do: [ohms winding 96], causes: [shorted of $part]}\n    - id: open\n")
	s := m.New(m.Fault("shorted of lamp"), nil) // 240 V / 96 Ω is 2.5 A when it was called
	s.Stand(plant.Standing{})
	for _, limit := range []string{"a", "b", "c", "d"} {
		if s.Variable("lamp.over_"+limit) != 1 {
			t.Errorf("2.5 A went through the lamp, and its limit %q of 2 A did not act", limit)
		}
	}
}

// TestUnsteadyPlantIsAnAnswer: a coil that lets go above where it pulls in, once
// it is worn, goes on and off; its contact's reading moves.
func TestUnsteadyPlantIsAnAnswer(t *testing.T) {
	t.Parallel()
	m := bench(t, "closed: made", "closed: made and not (part(\"lamp\").worn and part(\"lamp\").pulled_in)",
		"    - {id: mood, ", "    - {id: worn, first: false, fixed: true}\n    - {id: mood, ", "do: [open feed-live@to]", "do: [lock lamp.worn to true]")
	s := m.New(m.Fault("no-live"), nil)
	r := read(t, s, measurements.ACVolts, "call", "neutral", 10e6, "heat")
	if !r.Moving {
		t.Errorf("it reads %g V and is steady, want a reading that moves", r.Values[0])
	}
	near(t, "the highest", r.Values[0], 239, 1)
	if r := read(t, s, measurements.ACVolts, "in-live", "neutral", 10e6, "heat"); r.Moving {
		t.Error("the feed moves too, by less than anybody sees")
	}
	if r := read(t, m.New(nil, nil), measurements.ACVolts, "call", "neutral", 10e6, "heat"); r.Moving {
		t.Error("the healthy plant moves")
	}
}

// TestPointNamedEarthIsNotTrueEarth: a box's own earth may be off, or live.
func TestPointNamedEarthIsNotTrueEarth(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		for _, pt := range m.Plant.Points {
			if n, ok := m.Node(pt.ID); ok && n == network.Earth {
				t.Errorf("%s: the point %q is true earth itself", m.Plant.ID, pt.ID)
			}
		}
	}
}

// TestMeterThatSetsThePlantGoingRoundReadsTheHighest: through 300 Ω the coil of
// 1 kΩ has 184 V and pulls in, and with that 100 Ω lie across it for a moment,
// which leave it 56 V: it lets go. The meter shows 240·300/1302 = 55 V and 240·300/393 = 183 V
// by turns.
func TestMeterThatSetsThePlantGoingRoundReadsTheHighest(t *testing.T) {
	t.Parallel()
	s := bench(t, "    - {id: winding,", "    - {id: damper, from: live, to: neutral, ohms: 100, closed: pulled_in and not late}\n    - {id: winding,",
		"    - {id: mood, ", "    - {id: late, first: false}\n    - {id: mood, ", "    - {set: pulled_in", "    - {set: late, to: pulled_in}\n    - {set: pulled_in").New(nil, nil)
	r := read(t, s, measurements.ACVolts, "in-live", "call", 300)
	if !r.Moving {
		t.Error("the reading stands still")
	}
	near(t, "the highest", r.Values[0], 183, 1)
	if r = read(t, s, measurements.ACVolts, "in-live", "call", 10e6); r.Moving || r.Values[0] < 239 {
		t.Errorf("a meter that moves nothing reads %g V and moves: %v", r.Values[0], r.Moving)
	}
}
