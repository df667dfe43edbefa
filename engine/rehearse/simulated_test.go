package rehearse

import (
	"math"
	"slices"
	"testing"

	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// simulatedFault is a plant as Run simulates it, with a written fault in it.
func simulatedFault(t *testing.T, id string) (*trees.Plant, subject) {
	t.Helper()
	set := embedded(t)
	p, problems := set.Compose("millrace-spur")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	m, err := compiled(set, p)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range m.faults() {
		if f.id == id {
			return p, m.subject(f, nil)
		}
	}
	if id != "" {
		t.Fatalf("there is no fault %q", id)
	}
	return p, m.subject(nil, nil)
}

// unitCheck reads at the outdoor unit's terminals, by a meter of so many ohms.
func unitCheck(t *testing.T, p *trees.Plant, s subject, q measurements.Quantity, to string, ohms float64, st standing) answered {
	t.Helper()
	c := &trees.BoundCheck{ID: "at the unit", Quantity: q, Probes: []trees.BoundProbe{{From: p.Point("unit-live"), To: p.Point(to)}}}
	a, err := s.answer(c, []measurements.ModeSpec{{InputOhms: ohms}}, st)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// A case that has lost its earth goes to the 230 V of the live through a meter
// of 3 kΩ, and nobody may be told to do that; with its earth the meter trips
// the residual current device instead, at 77 mA.
func TestWhatAMeterDoesToThePlantReachesTheWalk(t *testing.T) {
	t.Parallel()
	p, s := simulatedFault(t, "broken-at-to of isolator-tail-earth")
	if a := unitCheck(t, p, s, measurements.ACVolts, "unit-earth", 3000, standing{}); a.lifted < 200 {
		t.Errorf("3 kΩ from live to a case without earth lift it to %g V, want about 230", a.lifted)
	}
	p, s = simulatedFault(t, "")
	a := unitCheck(t, p, s, measurements.ACVolts, "unit-earth", 3000, standing{})
	if a.lifted > caseVolts || len(a.moved) == 0 || !slices.Equal(a.tripped, []string{"residual current device unit-rcbo"}) {
		t.Errorf("3 kΩ from live to a sound earth move %v, trip %v and lift it to %g V, want the residual current device tripped", a.moved, a.tripped, a.lifted)
	}
	if a := unitCheck(t, p, s, measurements.ACVolts, "unit-neutral", measurements.TesterOhms, standing{}); a.lifted != 0 || len(a.moved)+len(a.tripped) > 0 {
		t.Errorf("a tester from live to neutral moves %v and lifts a case to %g V", a.moved, a.lifted)
	}
}

func TestOhmsWhereVoltsStandReachTheWalk(t *testing.T) {
	t.Parallel()
	p, s := simulatedFault(t, "")
	for off, want := range map[string]bool{"": true, "unit-isolator": false} {
		if a := unitCheck(t, p, s, measurements.Ohms, "unit-neutral", 0, standing{off: map[string]bool{off: true}}); a.live != want {
			t.Errorf("ohms with %q off: live is %v, want %v", off, a.live, want)
		}
	}
}

// A line of a proving form loads what it reads as its mode does: a tester of
// 300 kΩ, with its button pressed 10 kΩ.
func TestLineOfAProofLoadsWhatItReads(t *testing.T) {
	t.Parallel()
	p, s := simulatedFault(t, "broken-at-to of isolator-tail-earth")
	line := safety.FormField{From: p.Point("unit-earth"), To: p.Point("unit-neutral")}
	var read [2]float64
	for i, mode := range []measurements.Mode{measurements.TwoPoleUnloaded, measurements.TwoPoleLoaded} {
		line.Mode = string(mode)
		read[i] = s.volts(line, nil, nil)
	}
	if read[0] < 20 || math.Abs(read[1]) > read[0]/3 {
		t.Errorf("a floating case reads %.1f V by 300 kΩ and %.1f V by 10 kΩ, want tens of volts and next to none", read[0], read[1])
	}
}

// The screen is dark without the supply of the board, and with its pair shorted.
func TestScreenIsDarkByWhatFeedsIt(t *testing.T) {
	t.Parallel()
	for _, x := range []struct {
		fault, off string
		dark       bool
	}{{"", "", false}, {"", "unit-isolator", true}, {"", "booster-isolator", false}, {"pair-shorted", "", true}} {
		_, s := simulatedFault(t, x.fault)
		if got := s.dark(map[string]bool{x.off: true}); got != x.dark {
			t.Errorf("%s with %q off: dark is %v", x.fault, x.off, got)
		}
	}
}
