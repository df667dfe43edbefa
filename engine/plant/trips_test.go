package plant_test

import (
	"testing"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// A sheath with a hair crack passes cold and trips a 30 mA device after minutes
// of heat: 240 V over 4 kΩ are 60 mA (handbook F72, Y10).
func TestElementThatLeaksHotHoldsAtFirstAndTripsAfterMinutes(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		s := m.New(m.Fault("leaks-hot of booster"), nil)
		if shows(s, `device("booster-breaker").tripped != "none"`, "booster") {
			t.Errorf("%s: it trips as soon as it is called", m.Plant.ID)
		}
		if !shows(s, `after("wait", device("booster-breaker").tripped == "leakage")`, "booster") {
			t.Errorf("%s: it does not trip after minutes", m.Plant.ID)
		}
		if shows(m.New(nil, nil), `after("wait", device("booster-breaker").tripped != "none")`, "booster") {
			t.Errorf("%s: a sound element trips it", m.Plant.ID)
		}
	}
}

// 150 nF at 240 V and 50 Hz are 11.3 mA on top of what the unit leaks by
// itself: above a third of 30 mA, below where the device acts (IEC 61008-1).
func TestStandingLeakageShowsOnTheClampAndTripsNothing(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		s := m.New(m.Fault("unit-standing-leakage"), nil)
		if err := s.Act("reset unit-breaker, call heat"); err != nil {
			t.Fatal(err)
		}
		if shows(s, `device("unit-breaker").tripped != "none"`, "heat", "hot-water") {
			t.Errorf("%s: it trips by itself", m.Plant.ID)
		}
		if mA := leaking(t, s); mA < 10 || mA > 14 {
			t.Errorf("%s: %.1f mA, expected about 12", m.Plant.ID, mA)
		}
		if mA := leaking(t, m.New(nil, nil)); mA > 4 {
			t.Errorf("%s: the sound plant leaks %.1f mA", m.Plant.ID, mA)
		}
	}
}

// leaking is what a clamp round live and neutral shows at the outdoor isolator
// with heat called, in mA.
func leaking(t *testing.T, s *plant.Subject) float64 {
	t.Helper()
	c := &trees.BoundCheck{ID: "clamp", Quantity: measurements.Leakage, Probes: []trees.BoundProbe{{From: point(t, s, "isolator-out-live")}}}
	c.Need.Calls = map[string]bool{"heat": true}
	r, err := s.Answer(c, plant.How{})
	if err != nil {
		t.Fatal(err)
	}
	return r.Values[0] * 1000
}

// A residual current device and a breaker tell two different stories, and no
// fault is told as both.
func TestWhatTripsOnLeakageIsNotToldAsOvercurrent(t *testing.T) {
	t.Parallel()
	set := embedded(t)
	var rcd, fuse *trees.Sign
	for _, g := range set.Signs {
		switch g.ID.Value {
		case "rcd-trips":
			rcd = g
		case "fuse-blows":
			fuse = g
		}
	}
	if rcd == nil || fuse == nil {
		t.Fatal("the two signs are not there")
	}
	for _, m := range models(t) {
		leaks, blows := 0, 0
		for _, f := range m.Faults() {
			s := m.New(f, nil)
			r, b := s.Shows(rcd), s.Shows(fuse)
			if r && b {
				t.Errorf("%s, %s: it shows both", m.Plant.ID, f.ID)
			}
			if r {
				leaks++
			}
			if b {
				blows++
			}
		}
		if leaks < 20 || blows < 15 {
			t.Errorf("%s: %d trip on leakage, %d on overcurrent", m.Plant.ID, leaks, blows)
		}
	}
}
