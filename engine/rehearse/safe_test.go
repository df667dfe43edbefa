package rehearse

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// needsDead is a lamp whose tree reaches the dead reading in the control enclosure.
func needsDead() *fake {
	return lamp(broke("f", 1, "lamp-filament", ""), map[string]reply{"lamp-fed": volts(231, 231), "lamp-ohms": ohms(1e4)})
}

func TestForgottenSupplyIsFoundByTheProof(t *testing.T) {
	t.Parallel()
	m := needsDead()
	m.shut = map[string]string{"control-enclosure": "unit-isolator"}
	r := rehearsed(t, m, Options{Forgotten: true})
	halted := 0
	for _, c := range r.Cases {
		if c.Verdict == Unsafe {
			t.Errorf("%s forgotten: %s", c.Forgotten, c.Why)
		}
		halted += c.Halts
	}
	if halted == 0 {
		t.Error("no proof found the supply that was left on")
	}
}

// What is thought off when volts are found is what was forgotten: a device that
// is switched off afterwards really is off, and the walk goes on.
func TestWalkGoesOnOnceTheForgottenSupplyIsSwitchedOffElsewhere(t *testing.T) {
	t.Parallel()
	m := needsDead()
	m.shut = map[string]string{"control-enclosure": "unit-isolator unit-breaker"}
	for _, c := range rehearsed(t, m, Options{Forgotten: true}).Cases {
		if c.Forgotten == "unit" && (c.Halts != 1 || c.Verdict != Exact) {
			t.Errorf("%d proofs found volts, %s: %s\n%s", c.Halts, c.Verdict, c.Why, strings.Join(c.Steps(), "\n"))
		}
	}
}

// liveOnceCalled is needsDead with the control enclosure live by one supply and
// one call.
func liveOnceCalled(call string) *fake {
	m := needsDead()
	m.shut, m.called = map[string]string{"control-enclosure": "unit-isolator"}, map[string]string{"control-enclosure": call}
	return m
}

// The call that makes it live stands without power, or the screen is lit.
func TestForgottenSupplyIsFoundByTheCallOrTheScreenOfTheForm(t *testing.T) {
	t.Parallel()
	for call, lit := range map[string]string{"heat": "", "hot-water": "unit-isolator", "booster": "unit-isolator"} {
		m := liveOnceCalled(call)
		m.lit = lit
		halted := 0
		for _, c := range rehearsed(t, m, Options{Plants: []string{"millrace-spur"}, Forgotten: true}).Cases {
			if c.Verdict == Unsafe {
				t.Errorf("%s forgotten, live with %s called: %s", c.Forgotten, call, c.Why)
			}
			if lit != "" && c.Halts > 0 && !strings.Contains(c.Text(true), "finds volts: not controller dark") {
				t.Errorf("found by\n%s", c.Text(true))
			}
			halted += c.Halts
		}
		if halted == 0 {
			t.Errorf("no proof found the supply that shows with %s called", call)
		}
	}
}

// Nothing is called at a controller whose supply is to be off, dark as it may be.
func TestNothingIsCalledAtTheControllerWhereItsSupplyComes(t *testing.T) {
	t.Parallel()
	for call, unsafe := range map[string]bool{"heat": false, "hot-water": true} {
		r := rehearsed(t, liveOnceCalled(call), Options{Plants: []string{"millrace-spur"}, Symptoms: []string{"lamp-dark"}, Forgotten: true})
		for _, c := range r.Cases {
			if c.Forgotten == "unit" && unsafe != (c.Verdict == Unsafe) {
				t.Errorf("live with %s called: %s, %s", call, c.Verdict, c.Why)
			}
		}
	}
}

// The board's supply does not come to the booster's head: its calls are made for
// the proof while the screen is lit, and cannot be at a dark one.
func TestControllerThatKeepsItsPowerIsCalledForAProof(t *testing.T) {
	t.Parallel()
	p, _ := simulatedFault(t, "")
	m := &fake{shut: map[string]string{"booster-head": "booster-isolator"}, called: map[string]string{"booster-head": "booster"}}
	w := &walker{host: &host{bench: &bench{plant: p}, sub: m.subject(nil, nil)}}
	w.at = newGround(safety.Context{Plant: p}).first
	head := proving(p, safety.New(p), "booster-head", 0)
	for lit, want := range map[string]bool{"unit-isolator": true, "": false} {
		m.lit = lit
		if f := w.meets(head, nil); want != (len(f.lines) > 0) {
			t.Errorf("lit until %q is off: it reads %v", lit, f.lines)
		}
	}
}

func TestEnclosureThatGoesLiveByACallAfterItsProofIsUnsafe(t *testing.T) {
	t.Parallel()
	m := liveOnceCalled("hot-water")
	m.mute = true
	unsafe := 0
	for _, c := range rehearsed(t, m, Options{Forgotten: true}).Cases {
		if c.Verdict == Unsafe && strings.Contains(c.Why, "once called: ") && strings.Contains(c.Why, "hot-water") {
			unsafe++
		}
	}
	if unsafe != 1 {
		t.Errorf("%d walks unsafe, expected the one with the unit's supply left on", unsafe)
	}
}

func TestEnclosureProvedDeadWithVoltsInItIsUnsafe(t *testing.T) {
	t.Parallel()
	m := needsDead()
	m.live = map[string]float64{"control-enclosure": 120} // no line of the form reads it
	c := one(t, m, Options{})
	if c.Verdict != Unsafe || !strings.Contains(c.Why, "120 V") {
		t.Errorf("%s: %s", c.Verdict, c.Why)
	}
}

// lenient are rules under which an installer may do everything, as the monitor
// would never have it.
func lenient(t *testing.T) *trees.Set {
	t.Helper()
	set, err := lampSet()
	if err != nil {
		t.Fatal(err)
	}
	own, j := *set, *set.Jurisdictions["gb"]
	j.ID, j.Gates = "lenient", slices.Clone(j.Gates)
	for i := range j.Gates {
		j.Gates[i].Who, j.Gates[i].Needs = map[string]string{"installer": "yes", "electrical": "yes"}, nil
	}
	own.Jurisdictions = map[string]*trees.Jurisdiction{"lenient": &j}
	return &own
}

// What the guard lets through by rules that are wrong, the monitor sees.
func TestMonitorJudgesWhatTheGuardLetThrough(t *testing.T) {
	t.Parallel()
	kit := measurements.DefaultKit()
	for _, p := range []struct {
		kind string
		want Verdict
	}{{"electrical", Exact}, {"installer", Unsafe}} {
		m := needsDead()
		o := Options{Plants: []string{"millrace-small"}, Jurisdiction: "lenient", Persons: []Person{{p.kind, equipped(p.kind, kit)}}}
		r, err := run(lenient(t), o, func(*trees.Set, *trees.Plant) (model, error) { return m, nil }, lampSigns)
		if err != nil {
			t.Fatal(err)
		}
		if c := r.Cases[0]; len(r.Cases) != 1 || c.Verdict != p.want || p.want == Unsafe && !strings.Contains(c.Why, "by installer hands") {
			t.Errorf("%s: %s, %s", p.kind, c.Verdict, c.Why)
		}
	}
}

func TestMeterThatTripsProtectionIsUnsafe(t *testing.T) {
	t.Parallel()
	r := volts(0, 0)
	r.tripped = []string{"residual current device unit"}
	c := one(t, lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": r}), Options{})
	if c.Verdict != Unsafe || !strings.Contains(c.Why, "lamp-fed: the meter trips the residual current device unit") {
		t.Errorf("%s: %s", c.Verdict, c.Why)
	}
}

// 3 kΩ from 240 V to earth draw 80 mA past a residual current device of 30 mA;
// the 10 MΩ of a multimeter draw nothing that it feels.
func TestLowImpedanceToEarthTripsTheSimulatedPlant(t *testing.T) {
	t.Parallel()
	_, p, m := simulatedSmall(t)
	toEarth := &trees.BoundCheck{ID: "to earth", Check: &trees.Check{}, Quantity: measurements.ACVolts,
		Probes: []trees.BoundProbe{{From: p.Point("permanent-live"), To: p.Point("earth")}}}
	for _, mode := range []measurements.Mode{measurements.LowImpedance, measurements.HighImpedance} {
		_, spec, ok := measurements.DefaultKit().Find(mode, measurements.ACVolts)
		if !ok {
			t.Fatalf("no %s in the kit", mode)
		}
		a, err := m.subject(nil, nil).answer(toEarth, []measurements.ModeSpec{spec}, standing{})
		if err != nil || (len(a.tripped) > 0) != (mode == measurements.LowImpedance) {
			t.Errorf("%s trips %v, %v", mode, a.tripped, err)
		}
	}
}

// 50 V ac is the touch voltage limit of IEC 60364-4-41, 411.3.2.
func TestMeterThatLiftsACaseIsUnsafe(t *testing.T) {
	t.Parallel()
	for lifted, want := range map[float64]Verdict{49: Exact, 51: Unsafe} {
		r := volts(0, 0)
		r.lifted = lifted
		if c := one(t, lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": r}), Options{}); c.Verdict != want {
			t.Errorf("a case lifted to %g V is %s", lifted, c.Verdict)
		}
	}
}

func TestMeterThatMovesThePlantIsCounted(t *testing.T) {
	t.Parallel()
	r := volts(0, 0)
	r.moved = []string{"relay.made"}
	m := lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": r})
	if f := rehearsed(t, m, Options{}).Figures(nil); f.Moved != 1 {
		t.Errorf("moved in %d walks", f.Moved)
	}
}

func TestOhmsReadWhereVoltsStandAreUnsafe(t *testing.T) {
	t.Parallel()
	m := needsDead()
	r := m.answers["f"]["lamp-ohms"]
	r.live = true
	m.answers["f"]["lamp-ohms"] = r
	if c := one(t, m, Options{}); c.Verdict != Unsafe || !strings.Contains(c.Why, "lamp-ohms") {
		t.Errorf("%s: %s", c.Verdict, c.Why)
	}
}

// The plants themselves: whatever is wrong with them, and whichever supply is
// left on, nobody is led into danger. The board's outputs are dead until it is
// called: the limit's box and the diverter's show it with the unit's supply left on.
func TestNobodyIsLedIntoDangerOnASimulatedPlant(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("rehearses whole plants; without -short")
	}
	for _, x := range []struct {
		plant     string
		forgotten bool
		fault     string
		box       string // finds it
	}{
		{"millrace-small", false, "", ""},
		{"millrace-small", true, "tripped of high-limit", "limit-box"},
		{"millrace-volt-free", true, "motor of diverter", "diverter-box"},
	} {
		r, err := Run(embedded(t), Options{Plants: []string{x.plant}, Forgotten: x.forgotten, Trace: func(*Case) bool { return true }})
		if err != nil {
			t.Fatal(err)
		}
		found := 0
		for _, c := range r.Cases {
			if c.Verdict == Unsafe || !x.forgotten && c.Halts > 0 {
				t.Error(c.Text(true))
			}
			if c.Fault == x.fault && c.Forgotten == "unit" && strings.Contains(c.Text(true), "proving "+x.box+" finds volts") {
				found++
			}
		}
		if len(r.Cases) < 100 || x.forgotten && found != 1 {
			t.Errorf("%s: %d walks; the supply was found in the %s in %d of them", x.plant, len(r.Cases), x.box, found)
		}
	}
}
