package safety

import (
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// refused fails the test unless the guard refuses with the kind and the words.
func refused(t *testing.T, r *Refusal, kind, words string) {
	t.Helper()
	switch {
	case r == nil:
		t.Errorf("allowed; a refusal (%s) with %q was expected", kind, words)
	case r.Kind != kind || !strings.Contains(r.Why, words):
		t.Errorf("refused as %s: %q; expected %s with %q", r.Kind, r.Why, kind, words)
	}
}

func TestAForgottenSupplyKeepsTheCoverOn(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	for _, d := range []string{"unit-isolator", "booster-isolator"} {
		apply(w, act(journal.ActSwitchOff, d), act(journal.ActLock, d))
	}
	r := Guard(ctx, w, OfAct(act(journal.ActOpen, "control-enclosure")))
	refused(t, r, Order, "the controls spur")
	apply(w, act(journal.ActSwitchOff, "controls-spur"))
	refused(t, Guard(ctx, w, OfAct(act(journal.ActOpen, "control-enclosure"))), Order, "lock")
	apply(w, act(journal.ActLock, "controls-spur"))
	if r := Guard(ctx, w, OfAct(act(journal.ActOpen, "control-enclosure"))); r != nil {
		t.Errorf("isolated on all supplies and refused: %s", r.Why)
	}
}

func TestAnIsolatorsIncomingSideIsLiveUntilTheDeviceBeforeItIsOff(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	for _, d := range []string{"unit-isolator", "controls-spur"} {
		apply(w, act(journal.ActSwitchOff, d), act(journal.ActLock, d))
	}
	refused(t, Guard(ctx, w, OfAct(act(journal.ActOpen, "unit-isolator-box"))), Order, "the unit breaker")
	acts := reach(t, ctx, w, ohms(ctx, "in-live", "out-live"))
	if got := keys(acts); got[0] != "switch off unit-breaker" {
		t.Errorf("the plan begins with %q: the isolator is off, so nothing flows in the breaker", got[0])
	}
}

func TestNothingIsSwitchedOffUnderLoad(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	off := OfAct(act(journal.ActSwitchOff, "unit-isolator"))
	refused(t, Guard(ctx, w, off), Order, "withdraw heat")
	apply(w, act(journal.ActRelease, "heat"), act(journal.ActRelease, "hot-water"), act(journal.ActRelease, "booster"))
	refused(t, Guard(ctx, w, off), Order, "wait 2 minutes")
	apply(w, journal.Act{Do: journal.ActWait, Minutes: 3})
	if r := Guard(ctx, w, off); r != nil {
		t.Error(r.Why)
	}
	apply(w, act(journal.ActCall, "heat"))
	refused(t, Guard(ctx, w, off), Order, "withdraw heat")
	w.Apply(journal.Event{Body: &journal.Acted{Act: act(journal.ActRelease, "heat"), Outcome: journal.Cannot}})
	if r := Guard(ctx, w, off); r != nil {
		t.Errorf("a call that cannot be withdrawn keeps the plant from being made safe: %s", r.Why)
	}
}

func TestACoverLeftOffAndPowerBackNoPlugWithoutANewProof(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "valve-live", "valve-neutral", "valve"))
	reach(t, ctx, w, volts(ctx, "valve-live", "valve-neutral", map[string]bool{"hot-water": true}))
	if w.Enclosures["valve-box"].Open != Set {
		t.Fatal("the cover went back on for a live reading")
	}
	for _, do := range []string{journal.ActUnplug, journal.ActRefit} {
		refused(t, Guard(ctx, w, OfAct(act(do, "valve"))), Order, "prove")
	}
	refused(t, Guard(ctx, w, OfAct(act(journal.ActClose, "valve-box"))), Order, "prove")
	refused(t, Guard(ctx, w, OfCheck(ohms(ctx, "valve-live", "valve-neutral"))), Order, "prove")
	for _, d := range []string{"unit-isolator", "controls-spur"} {
		apply(w, act(journal.ActSwitchOff, d), act(journal.ActLock, d))
	}
	refused(t, Guard(ctx, w, OfAct(act(journal.ActUnplug, "valve"))), Order, "prove")
}

func TestEachSupplyMustBeOnForALiveReadingAndNothingUnplugged(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	c := volts(ctx, "permanent-live", "neutral", nil)
	reach(t, ctx, w, ohms(ctx, "permanent-live", "neutral", "cylinder-sensor"))
	for _, d := range []string{"unit-isolator", "controls-spur"} {
		refused(t, Guard(ctx, w, OfCheck(c)), Order, "back on")
		apply(w, act(journal.ActUnlock, d), act(journal.ActSwitchOn, d))
	}
	refused(t, Guard(ctx, w, OfCheck(c)), Order, "refit cylinder-sensor")
}

func TestPowerComesBackBehindACoverOffOnlyForHandsThatMayWorkLive(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "permanent-live", "neutral"))
	for i, g := range ctx.Jurisdiction.Gates {
		if g.May == "live" {
			ctx.Jurisdiction.Gates[i].Who = map[string]string{}
		}
	}
	refused(t, Guard(ctx, w, OfAct(act(journal.ActUnlock, "unit-isolator"))), Order, "goes back on")
	reach(t, ctx, w, look(map[string]bool{"heat": true}, 5))
	if w.Enclosures["control-enclosure"].Open != AsFound {
		t.Error("power came back with the cover off")
	}
}

func TestSealedAndIncomingEnclosuresAreNeverOpened(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	for _, d := range ctx.Plant.Devices {
		apply(w, act(journal.ActSwitchOff, d.ID), act(journal.ActLock, d.ID))
	}
	for box, words := range map[string]string{"power-enclosure": "sealed", "consumer-unit": "stays live and shut", "spur-box": "nothing that can be locked"} {
		r := Guard(ctx, w, OfAct(act(journal.ActOpen, box)))
		refused(t, r, Never, words)
		if r != nil && r.Referral == "" {
			t.Errorf("%s is refused without a referral", box)
		}
	}
	refused(t, Guard(ctx, w, OfAct(act(journal.ActLock, "booster-breaker"))), Never, "cannot be locked")
	refused(t, Available(ctx, w, OfCheck(ohms(ctx, "spur-in-live", "spur-in-neutral"))), Never, "nothing that can be locked")
}

func TestAResetIsDoneOnceAJob(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	c := look(nil, 0, "switches")
	c.Check = &trees.Check{Once: true}
	if r := Guard(ctx, w, OfCheck(c)); r != nil {
		t.Fatal(r.Why)
	}
	w.Apply(journal.Event{Body: &journal.Read{Check: c.ID}})
	refused(t, Guard(ctx, w, OfCheck(c)), Again, "once")
}

func TestCallsAreWaitedForBeforeALook(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	c := look(map[string]bool{"hot-water": true, "heat": false}, 10)
	refused(t, Guard(ctx, w, OfCheck(c)), Order, "withdraw heat")
	apply(w, act(journal.ActRelease, "heat"), act(journal.ActCall, "hot-water"), journal.Act{Do: journal.ActWait, On: "heat", Minutes: 9})
	refused(t, Guard(ctx, w, OfCheck(c)), Order, "10 minutes")
	got := keys(reach(t, ctx, w, c))
	if len(got) != 1 || w.Calls["hot-water"].Minutes != 10 {
		t.Errorf("nine of ten minutes were over and the plan was %v, leaving %v", got, w.Calls)
	}
}

func TestAWaitNeedsMinutes(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	for _, m := range []float64{0, -1, measurements.Ohms.Domain().Hi} {
		refused(t, Guard(ctx, w, OfAct(journal.Act{Do: journal.ActWait, On: "heat", Minutes: m})), Order, "minutes")
	}
}

func TestAHandInAMainsEnclosureIsNeverOutside(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	n := trees.Need{Power: trees.Outside, Enclosures: []string{"valve-box"}}
	refused(t, Guard(ctx, w, OfNeed(n)), Order, "prove")
	refused(t, Guard(ctx, w, OfNeed(trees.Need{Power: "later"})), Unknown, "outside, dead or live")
}

func TestALockGoesOnWhatIsOffAndComesOffBeforePower(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	refused(t, Guard(ctx, w, OfAct(act(journal.ActLock, "unit-isolator"))), Order, "switch off")
	apply(w, act(journal.ActSwitchOff, "unit-isolator"), act(journal.ActLock, "unit-isolator"))
	refused(t, Guard(ctx, w, OfAct(act(journal.ActSwitchOn, "unit-isolator"))), Order, "lock off")
	w.Apply(journal.Event{Body: &journal.Resumed{}})
	refused(t, Guard(ctx, w, OfAct(act(journal.ActLock, "unit-isolator"))), Order, "switch off")
	refused(t, Guard(ctx, w, OfAct(act(journal.ActSwitchOn, "unit-isolator"))), Order, "lock off")
}

func TestACoverThatMayStillBeOffKeepsPowerAwayFromHandsThatMayNotWorkLive(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "permanent-live", "neutral"))
	w.Apply(journal.Event{Body: &journal.Handed{}})
	ctx.Hands.Kind = "householder"
	apply(w, act(journal.ActUnlock, "unit-isolator"))
	refused(t, Guard(ctx, w, OfAct(act(journal.ActSwitchOn, "unit-isolator"))), Order, "goes back on")
}

func TestNothingIsProvedWithASupplyOn(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, volts(ctx, "valve-live", "valve-neutral", nil))
	refused(t, Guard(ctx, w, OfAct(act(journal.ActProve, "valve-box"))), Order, "switch off and lock")
	refused(t, Guard(ctx, w, OfForm("valve-box", Clean(Form(ctx.Plant, "valve-box")))), Order, "switch off and lock")
	refused(t, Guard(ctx, w, OfAct(act(journal.ActProve, "control-enclosure"))), Order, "take the cover off")
}

func TestPlugsAreOffExactlyAsTheCheckSays(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "valve-live", "valve-neutral"))
	refused(t, Guard(ctx, w, OfCheck(ohms(ctx, "valve-live", "valve-neutral", "valve"))), Order, "unplug valve")
	apply(w, act(journal.ActUnplug, "valve"))
	refused(t, Guard(ctx, w, OfCheck(ohms(ctx, "valve-live", "valve-neutral"))), Order, "refit valve")
}

func TestALowVoltageCoverIsTakenOffToo(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	c := look(nil, 0)
	c.Need.Covers = []string{"controller-base"}
	refused(t, Guard(ctx, w, OfCheck(c)), Order, "take the cover off")
	refused(t, Guard(ctx, w, OfAct(act(journal.ActUnplug, "controller"))), Order, "take the cover off")
	reach(t, ctx, w, c)
	if r := Guard(ctx, w, OfAct(act(journal.ActUnplug, "controller"))); r != nil {
		t.Error(r.Why)
	}
}

func TestACallWaitedForTheOtherWayRoundDoesNotCount(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	on, off := look(map[string]bool{"hot-water": true}, 0), look(map[string]bool{"hot-water": false}, 0)
	apply(w, act(journal.ActRelease, "hot-water"), journal.Act{Do: journal.ActWait, Minutes: 30})
	refused(t, Guard(ctx, w, OfCheck(on)), Order, "call for hot water")
	apply(w, act(journal.ActCall, "hot-water"))
	refused(t, Guard(ctx, w, OfCheck(on)), Order, "2 minutes") // the call's own time to settle
	apply(w, journal.Act{Do: journal.ActWait, Minutes: 30})
	refused(t, Guard(ctx, w, OfCheck(off)), Order, "withdraw hot water")
}
