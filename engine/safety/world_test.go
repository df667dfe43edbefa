package safety

import (
	"slices"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/trees"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

var ignorePlant = []cmp.Option{cmpopts.IgnoreUnexported(World{}, Found{})}

func TestResumingVoidsProofsAndWaitsAndDoubtsWhatWasSet(t *testing.T) {
	t.Parallel()
	for _, pause := range []any{&journal.Resumed{}, &journal.Handed{}} {
		ctx, w := engineer(), New(house())
		c := ohms(ctx, "permanent-live", "neutral", "cylinder-sensor")
		reach(t, ctx, w, c)
		apply(w, act(journal.ActCall, "booster"), journal.Act{Do: journal.ActWait, On: "booster", Minutes: 5})
		w.Apply(journal.Event{Body: pause})
		switch {
		case w.Proved("control-enclosure"):
			t.Errorf("%T left a proof standing", pause)
		case w.Isolated("control-enclosure"):
			t.Errorf("%T left locks counting as on", pause)
		case w.Plugs["cylinder-sensor"] != Unsure || w.Enclosures["control-enclosure"].Open != Unsure:
			t.Errorf("%T left plug %v and cover %v undoubted", pause, w.Plugs["cylinder-sensor"], w.Enclosures["control-enclosure"])
		case w.Calls["booster"] != Call{Asked: Lapsed}:
			t.Errorf("%T left the call %v", pause, w.Calls["booster"])
		case w.Powered("unit"):
			t.Errorf("%T made a locked supply count as on", pause)
		}
		if r := Guard(ctx, w, OfCheck(c)); r == nil {
			t.Errorf("%T: ohms were allowed without a new proof", pause)
		}
		reach(t, ctx, w, c)
	}
}

func TestTakingAReadingBackNeverChangesTheWorld(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, volts(ctx, "permanent-live", "neutral", nil))
	reset := look(nil, 0)
	reset.Check = &trees.Check{Once: true}
	w.Apply(journal.Event{N: 7, Body: &journal.Read{Check: reset.ID}})
	before := w.Clone()
	for _, e := range []any{&journal.Retracted{Event: 7}, &journal.Retracted{Event: 2}, &journal.Repaired{}, &journal.Noted{}, &journal.Stopped{}, &journal.Turned{}} {
		w.Apply(journal.Event{Body: e})
	}
	if d := cmp.Diff(before, w, ignorePlant...); d != "" {
		t.Errorf("the world moved:\n%s", d)
	}
	if r := Guard(ctx, w, OfCheck(reset)); r == nil || r.Kind != Again {
		t.Errorf("a reset taken back was allowed again: %v", r)
	}
}

func TestPuttingPowerBackVoidsTheProofOfWhatThatSupplyReaches(t *testing.T) {
	t.Parallel()
	for _, do := range []string{journal.ActUnlock, journal.ActSwitchOn} {
		ctx, w := engineer(), New(house())
		reach(t, ctx, w, ohms(ctx, "permanent-live", "neutral"))
		apply(w, act(do, "controls-spur"), act(journal.ActSwitchOff, "controls-spur"), act(journal.ActLock, "controls-spur"))
		if w.Proved("control-enclosure") {
			t.Errorf("%s and isolating again left the old proof standing", do)
		}
		if !w.Isolated("control-enclosure") {
			t.Errorf("%s and isolating again is isolated", do)
		}
	}
}

func TestPowerBackStartsEveryWaitAgain(t *testing.T) {
	t.Parallel()
	w := New(house())
	apply(w, act(journal.ActCall, "heat"), journal.Act{Do: journal.ActWait, On: "heat", Minutes: 9}, act(journal.ActSwitchOn, "unit-isolator"))
	if got := w.Calls["heat"]; got != (Call{Asked: On}) {
		t.Errorf("after power came back the call is %v", got)
	}
}

func TestAWaitCountsForEveryKnownCallAndNoOther(t *testing.T) {
	t.Parallel()
	w := New(house())
	apply(w, act(journal.ActCall, "heat"), act(journal.ActRelease, "hot-water"), journal.Act{Do: journal.ActWait, On: "heat", Minutes: 4})
	want := map[string]Call{"heat": {Asked: On, Minutes: 4}, "hot-water": {Asked: Off, Minutes: 4, Stopped: true}}
	if d := cmp.Diff(want, w.Calls); d != "" {
		t.Error(d)
	}
	apply(w, act(journal.ActCall, "hot-water"))
	if w.Calls["hot-water"].Minutes != 0 {
		t.Error("a call changed and kept its minutes")
	}
}

// The house stops hot water in three minutes; what was stopped once stands still
// until it is called again, whatever power did meanwhile.
func TestAPlantThatWasStoppedIsNotWaitedForAgain(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	off := OfAct(act(journal.ActSwitchOff, "unit-isolator"))
	still := func(minutes float64) {
		for _, c := range []string{"heat", "hot-water", "booster"} {
			apply(w, act(journal.ActRelease, c))
		}
		apply(w, journal.Act{Do: journal.ActWait, On: "hot-water", Minutes: minutes})
	}
	still(2)
	apply(w, act(journal.ActSwitchOn, "controls-spur"))
	refused(t, Guard(ctx, w, off), Order, "wait 3 minutes")
	still(3)
	apply(w, act(journal.ActSwitchOff, "unit-isolator"), act(journal.ActSwitchOn, "unit-isolator"))
	if r := Guard(ctx, w, off); r != nil {
		t.Errorf("nothing was called since: %s", r.Why)
	}
	apply(w, act(journal.ActCall, "hot-water"), act(journal.ActRelease, "hot-water"))
	refused(t, Guard(ctx, w, off), Order, "wait 3 minutes")
}

func TestAProofIsJudgedByItsFormWhateverTheEventSays(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "permanent-live", "neutral"))
	values := Clean(Form(ctx.Plant, "control-enclosure"))
	values = slices.DeleteFunc(values, func(f journal.Field) bool { return f.Name == "heat-call to earth" })
	w.Apply(journal.Event{Body: &journal.Acted{Act: act(journal.ActProve, "control-enclosure"), Outcome: journal.Done, Form: values}})
	if w.Proved("control-enclosure") {
		t.Error("a form without its heat call line proved the enclosure")
	}
	values = Clean(Form(ctx.Plant, "control-enclosure"))
	for i := range values {
		if values[i].Name == "heat-call to earth" {
			values[i].Value = -230
		}
	}
	w.Apply(journal.Event{Body: &journal.Acted{Act: act(journal.ActProve, "control-enclosure"), Outcome: journal.Done, Form: values}})
	if w.Found == nil || w.Found.Line != "heat-call to earth" || w.Found.Volts != 230 {
		t.Errorf("a form with 230 V in it called done gave %+v", w.Found)
	}
}

func TestActsOnThingsThePlantDoesNotHaveDoNotPanic(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	apply(w, act(journal.ActOpen, "valve-box"))
	for do := range rules {
		if r := Guard(ctx, w, OfAct(act(do, "nowhere"))); r == nil || r.Kind != Unknown {
			t.Errorf("%s nowhere: %v", do, r)
		}
		apply(w, act(do, "nowhere"))
	}
	if r := Guard(ctx, w, OfAct(act("dance", "heat"))); r == nil {
		t.Error("an act that does not exist was allowed")
	}
	w.Powered("unit")
	w.Locked()
	Plan(ctx, w, OfCheck(ohms(ctx, "valve-live", "valve-neutral")), []string{"nowhere"})
	PlanRestore(ctx, w)
}

func TestAProofCountsOnlyWhileOpenAndIsolated(t *testing.T) {
	t.Parallel()
	w := New(house())
	apply(w, act(journal.ActOpen, "valve-box"), act(journal.ActProve, "valve-box"))
	for _, d := range []string{"unit-isolator", "controls-spur"} {
		apply(w, act(journal.ActSwitchOff, d), act(journal.ActLock, d))
	}
	if w.Proved("valve-box") {
		t.Error("a form filled in with the supplies on counts once they are off")
	}
	w.Enclosures["valve-box"] = Enclosure{Open: Set, Proved: true}
	if !w.Proved("valve-box") {
		t.Error("open, isolated and proved is not proved")
	}
	w.Enclosures["valve-box"] = Enclosure{Open: Unsure, Proved: true}
	if w.Proved("valve-box") {
		t.Error("proved with a cover nobody has seen to be off")
	}
	w.Enclosures["valve-box"] = Enclosure{Open: Set, Proved: true}
	delete(w.Devices, "controls-spur")
	if w.Proved("valve-box") {
		t.Error("proved with a supply on")
	}
}
