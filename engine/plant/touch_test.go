package plant_test

import (
	"testing"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
)

var breakerOff = map[string]bool{"breaker": true}

// TestTouchIsWhatABodyStandsUnder: 2 kΩ from the live in the box to true earth,
// behind the 1 Ω of the mains, keep 239.9 V of 240; with the breaker off what
// comes over the cable's capacitance collapses under them.
func TestTouchIsWhatABodyStandsUnder(t *testing.T) {
	t.Parallel()
	s := bench(t).New(nil, nil)
	v, at := s.Touch("box", nil, nil)
	if at != "in-live" {
		t.Errorf("the worst is at %q, want in-live", at)
	}
	near(t, "live to true earth", v, 240*2000/2001.0, 0.1)
	if v, at = s.Touch("box", breakerOff, map[string]bool{"heat": true}); v > 1 {
		t.Errorf("with the breaker off %g V at %q, want none", v, at)
	}
}

// TestTouchLooksBetweenTwoPointsToo: live and neutral 240 V either side of earth
// are 480 V apart.
func TestTouchLooksBetweenTwoPointsToo(t *testing.T) {
	t.Parallel()
	m := bench(t, "{id: return, from: neutral, to: ground, ohms: 1}", "{id: return, from: neutral, to: ground, ohms: 1, volts: 0 - volts}")
	v, at := m.New(nil, nil).Touch("box", nil, nil)
	if at != "in-live and neutral" {
		t.Errorf("the worst is at %q, want between in-live and neutral", at)
	}
	near(t, "between them", v, 480*2000/2002.0, 0.1)
}

// TestTouchFindsWhatComesBackOverALoad: with its neutral off the lamp of 1 kΩ
// brings 240 V to the neutral terminal, 160 V through a body; nobody who is
// called to it with heat off finds it.
func TestTouchFindsWhatComesBackOverALoad(t *testing.T) {
	t.Parallel()
	m := bench(t, "do: [open feed-live@to]", "do: [open feed-neutral@to]")
	s := m.New(m.Fault("no-live"), nil)
	heat := plant.Standing{Calls: map[string]bool{"heat": true}}
	neutral, earth := point(t, s, "neutral"), point(t, s, "earth")
	near(t, "neutral to earth, a body", s.Between(neutral, earth, 2000, heat), 240*2000/3002.0, 0.5)
	near(t, "neutral to earth, a tester", s.Between(neutral, earth, 300e3, heat), 240*300e3/301e3, 0.5)
	near(t, "nothing called", s.Between(neutral, earth, 2000, plant.Standing{}), 0, 0.1)
}

// TestMeterLiftsACaseWhoseEarthIsLost: a case that hangs on nothing goes to the
// 240 V of the live, whatever the meter, though nothing flows in it. With its
// earth the case stays where it is.
func TestMeterLiftsACaseWhoseEarthIsLost(t *testing.T) {
	t.Parallel()
	m := bench(t, "do: [open feed-live@to]", "do: [open feed-earth@to]")
	s := m.New(m.Fault("no-live"), nil)
	for _, ohms := range []float64{3000, 300e3, 10e6} {
		r := read(t, s, measurements.ACVolts, "in-live", "earth", ohms)
		near(t, "the case", r.LiftsTo, 240, 1)
		if r.Amps[0] > 1e-6 {
			t.Errorf("%g A flow into a case that hangs on nothing", r.Amps[0])
		}
	}
	if r := read(t, bench(t).New(nil, nil), measurements.ACVolts, "in-live", "earth", 300e3); r.LiftsTo != 0 {
		t.Errorf("a sound earth is lifted to %g V", r.LiftsTo)
	}
}

// TestTouchIsTheMostOfAPlantThatGoesRound: a worn relay goes on and off, so that
// its call has 240 V by turns, and so has the open contact before it.
func TestTouchIsTheMostOfAPlantThatGoesRound(t *testing.T) {
	t.Parallel()
	m := bench(t, "closed: made", "closed: made and not (part(\"lamp\").worn and part(\"lamp\").pulled_in)",
		"    - {id: mood, ", "    - {id: worn, first: false, fixed: true}\n    - {id: mood, ", "do: [open feed-live@to]", "do: [lock lamp.worn to true]",
		"  - {id: box, words: the box}", "  - {id: box, words: the box}\n  - {id: lid, words: the lid, reference: box}", "{id: call, in: box", "{id: call, in: lid")
	s := m.New(m.Fault("no-live"), nil)
	heat := plant.Standing{Calls: map[string]bool{"heat": true}}
	v, at := s.Touch("lid", nil, heat.Calls)
	if near(t, "the call by turns", v, 239.5, 1); at != "call" {
		t.Errorf("the worst is at %q, want the call", at)
	}
	live, call, neutral := point(t, s, "in-live"), point(t, s, "call"), point(t, s, "neutral")
	near(t, "call to neutral", s.Between(call, neutral, 300e3, heat), 239.5, 1)
	near(t, "across the contact", s.Between(live, call, 300e3, heat), 239.5, 1)
	if v, _ = s.Touch("lid", nil, nil); v > 1 {
		t.Errorf("with nothing called %g V at the call, want none", v)
	}
}
