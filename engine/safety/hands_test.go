package safety

import (
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// as gives the context with other hands and the same kit.
func as(kind string, change func(*journal.Hands)) Context {
	ctx := engineer()
	ctx.Hands.Kind = kind
	if change != nil {
		change(&ctx.Hands)
	}
	return ctx
}

func TestWrongHandsAreRefusedAndReferred(t *testing.T) {
	t.Parallel()
	supervised := func(h *journal.Hands) { h.Supervisor = "the foreman" }
	dead := func(c Context) Thing { return OfCheck(ohms(c, "valve-live", "valve-neutral")) }
	live := func(c Context) Thing { return OfCheck(volts(c, "valve-live", "valve-neutral", nil)) }
	limit := func(c Context) Thing { return OfCheck(look(nil, 0, "limit")) }
	cases := []struct {
		name     string
		ctx      Context
		thing    func(Context) Thing
		referral string // empty: allowed
	}{
		{"householder opens nothing", as("householder", nil), dead, beyondHands},
		{"installer opens nothing", as("installer", nil), dead, beyondHands},
		{"apprentice alone", as("apprentice", nil), live, supervisor},
		{"apprentice with a name of blanks beside", as("apprentice", func(h *journal.Hands) { h.Supervisor = " " }), live, supervisor},
		{"apprentice with a supervisor", as("apprentice", supervised), live, ""},
		{"electrical", as("electrical", nil), live, ""},
		{"nobody in particular", as("", nil), live, beyondHands},
		{"limit without certificate", as("electrical", nil), limit, unvented},
		{"limit with certificate", as("electrical", func(h *journal.Hands) { h.Certificates = []string{"unvented"} }), limit, ""},
		{"limit by phone", as("electrical", func(h *journal.Hands) { h.Certificates = []string{"unvented"}; h.Phone = true }), limit, unvented},
		{"householder looks", as("householder", nil), func(Context) Thing { return OfCheck(look(nil, 0)) }, ""},
		{"householder calls", as("householder", nil), func(Context) Thing { return OfCheck(look(map[string]bool{"heat": true}, 1)) }, ""},
		{"unknown capability", as("electrical", nil), func(Context) Thing { return OfCheck(look(nil, 0, "levitate")) }, beyondHands},
	}
	for _, c := range cases {
		r := Available(c.ctx, New(c.ctx.Plant), c.thing(c.ctx))
		switch {
		case c.referral == "" && r != nil:
			t.Errorf("%s: refused: %s", c.name, r.Why)
		case c.referral != "" && (r == nil || r.Referral != c.referral || r.Kind != Hands):
			t.Errorf("%s: %+v, expected a referral to %s", c.name, r, c.referral)
		}
	}
}

func TestWrongHandsMayNotDoTheActsEither(t *testing.T) {
	t.Parallel()
	ctx := as("householder", nil)
	w := New(ctx.Plant)
	apply(w, act(journal.ActRelease, "heat"), act(journal.ActRelease, "hot-water"), act(journal.ActRelease, "booster"), journal.Act{Do: journal.ActWait, Minutes: 5})
	for _, a := range []journal.Act{act(journal.ActOpen, "valve-box"), act(journal.ActLock, "unit-isolator"), act(journal.ActProve, "valve-box"), act(journal.ActUnplug, "room-sensor"), act(journal.ActUnplug, "valve")} {
		refused(t, Guard(ctx, w, OfAct(a)), Hands, "not for these hands")
	}
	if r := Guard(ctx, w, OfAct(act(journal.ActSwitchOff, "unit-isolator"))); r != nil {
		t.Errorf("a householder may work a labelled switch: %s", r.Why)
	}
	installer := as("installer", nil)
	if r := Guard(installer, New(installer.Plant), OfAct(act(journal.ActUnplug, "room-sensor"))); r != nil {
		t.Errorf("an installer may part a sensor's plug outside every mains enclosure: %s", r.Why)
	}
}

func TestWithoutAJurisdictionOnlyLookingIsLeft(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	ctx.Jurisdiction = nil
	w := New(ctx.Plant)
	if r := Guard(ctx, w, OfCheck(look(nil, 0))); r != nil {
		t.Error(r.Why)
	}
	refused(t, Guard(ctx, w, OfAct(act(journal.ActCall, "heat"))), Hands, "not known here")
	refused(t, Available(ctx, w, OfCheck(ohms(ctx, "valve-live", "valve-neutral"))), Hands, "not known here")
}

func TestLowImpedanceOnlyBetweenLiveAndNeutralOfOneRCD(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	for _, mode := range []string{string(measurements.LowImpedance), string(measurements.TwoPoleLoaded)} {
		for pair, allowed := range map[[2]string]bool{
			{"permanent-live", "neutral"}:         true,
			{"neutral", "hot-water-call"}:         true,
			{"receiver-no", "receiver-neutral"}:   true,
			{"permanent-live", "earth"}:           false,
			{"neutral", "earth"}:                  false,
			{"heat-call", "neutral"}:              false, // the spur's live, the unit's neutral
			{"heat-call", "receiver-neutral"}:     true,
			{"permanent-live", "hot-water-call"}:  false,
			{"cylinder-a", "neutral"}:             false,
			{"permanent-live", "data-s"}:          false, // a signal core that sits on the neutral
			{"permanent-live", "booster-in-live"}: false,
		} {
			c := volts(ctx, pair[0], pair[1], nil, mode)
			_, r := Modes(ctx, c)
			if allowed != (r == nil) {
				t.Errorf("%s between %s and %s: %v", mode, pair[0], pair[1], r)
			}
			if !allowed {
				refused(t, Guard(ctx, New(ctx.Plant), OfCheck(c, mode)), Never, "same RCD")
			}
		}
	}
}

func TestAModeThatMayNotBeUsedGivesWayToOneThatMay(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	c := volts(ctx, "permanent-live", "earth", nil, string(measurements.LowImpedance), string(measurements.HighImpedance))
	got, r := Modes(ctx, c)
	if r != nil || len(got) != 1 || got[0] != string(measurements.HighImpedance) {
		t.Errorf("modes %v, %v", got, r)
	}
	refused(t, Guard(ctx, New(ctx.Plant), OfCheck(c, string(measurements.LowImpedance))), Never, "same RCD")
	refused(t, Guard(ctx, New(ctx.Plant), OfCheck(c, string(measurements.ModeOhms))), Instrument, "does not read")
}

func TestAnInstrumentThatIsNotThereIsNamed(t *testing.T) {
	t.Parallel()
	ctx := as("electrical", func(h *journal.Hands) { h.Kit = []string{"two-pole"} })
	refused(t, Available(ctx, New(ctx.Plant), OfCheck(ohms(ctx, "valve-live", "valve-neutral"))), Instrument, "ohms")
	ctx = as("electrical", func(h *journal.Hands) { h.Kit = []string{"multimeter"} })
	r := Available(ctx, New(ctx.Plant), OfCheck(ohms(ctx, "valve-live", "valve-neutral")))
	refused(t, r, Instrument, "two-pole")
	if r != nil && r.Referral != noInstrument {
		t.Errorf("referral %q", r.Referral)
	}
	ctx = as("electrical", func(h *journal.Hands) { h.ProvingUnit = false })
	refused(t, Available(ctx, New(ctx.Plant), OfNeed(trees.Need{Power: trees.DeadWay, Enclosures: []string{"valve-box"}})), Instrument, "proving unit")
}

func TestALowImpedanceModeOf300KilohmsIsNoLowImpedance(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	ctx.Kit = measurements.DefaultKit()
	for i := range ctx.Kit.Instruments {
		for j := range ctx.Kit.Instruments[i].Modes {
			if ctx.Kit.Instruments[i].Modes[j].Mode.Loads() {
				ctx.Kit.Instruments[i].Modes[j].InputOhms = 300e3
			}
		}
	}
	_, r := Modes(ctx, volts(ctx, "permanent-live", "neutral", nil, string(measurements.LowImpedance)))
	refused(t, r, Instrument, "low impedance")
}

func TestAProbeOnACaseIsNeverLoadedWhateverItsPointIsCalled(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	c := volts(ctx, "permanent-live", "neutral", nil, string(measurements.LowImpedance))
	c.Probes[0].Earth = true
	refused(t, Available(ctx, New(ctx.Plant), OfCheck(c)), Never, "same RCD")
}

func TestWhatANeedTakesIsAskedOfTheHandsEvenIfItDoesNotSay(t *testing.T) {
	t.Parallel()
	ctx := as("installer", nil)
	for _, power := range []string{trees.DeadWay, trees.Live} {
		refused(t, Guard(ctx, New(ctx.Plant), OfNeed(trees.Need{Power: power, Enclosures: []string{"valve-box"}, Asks: []string{"look"}})), Hands, "not for these hands")
	}
	ctx = as("electrical", nil)
	for i, g := range ctx.Jurisdiction.Gates {
		if g.May == "live" {
			ctx.Jurisdiction.Gates[i].Who = nil
		}
	}
	refused(t, Guard(ctx, New(ctx.Plant), OfNeed(trees.Need{Power: trees.Live, Asks: []string{"look"}})), Hands, "live")
}
