package safety

import (
	"slices"
	"testing"

	"faultwalk/engine/journal"
)

// finding opens the board and reads volts on one line of its form.
func finding(t *testing.T, line string, v float64) (Context, *World) {
	t.Helper()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "permanent-live", "neutral"))
	find(t, ctx, w, "control-enclosure", line, v)
	return ctx, w
}

func find(t *testing.T, ctx Context, w *World, box, line string, v float64) {
	t.Helper()
	values := []journal.Field{{Name: testerBefore, Typed: "yes"}, {Name: line, Typed: "x", Value: v}}
	if r := Guard(ctx, w, OfForm(box, values)); r != nil {
		t.Fatalf("a voltage could not be recorded: %s", r.Why)
	}
	w.Apply(journal.Event{Body: &journal.Acted{Act: act(journal.ActProve, box), Outcome: journal.Found, Form: values}})
}

func TestAVoltageFoundHaltsEverythingButIsolating(t *testing.T) {
	t.Parallel()
	ctx, w := finding(t, "heat-call to earth", 231)
	for _, a := range []journal.Act{
		act(journal.ActUnlock, "unit-isolator"), act(journal.ActSwitchOn, "unit-isolator"), act(journal.ActOpen, "valve-box"),
		act(journal.ActClose, "control-enclosure"), act(journal.ActUnplug, "cylinder-sensor"), act(journal.ActCall, "heat"),
		act(journal.ActProve, "control-enclosure"), act(journal.ActProve, "valve-box"),
	} {
		refused(t, Guard(ctx, w, OfAct(a)), Halt, "231 V")
	}
	refused(t, Guard(ctx, w, OfCheck(look(nil, 0))), Halt, "hands out")
	if len(PlanRestore(ctx, w)) != 0 {
		t.Error("power would be put back on a voltage nobody has explained")
	}
	for _, do := range []string{journal.ActSwitchOff, journal.ActLock} {
		if r := Guard(ctx, w, OfAct(act(do, "booster-isolator"))); r != nil {
			t.Errorf("%s: %s", do, r.Why)
		}
		apply(w, act(do, "booster-isolator"))
	}
	if r := Guard(ctx, w, OfAct(act(journal.ActProve, "control-enclosure"))); r != nil {
		t.Errorf("more is isolated and proving again is refused: %s", r.Why)
	}
	apply(w, act(journal.ActProve, "control-enclosure"))
	if w.Found != nil || !w.Proved("control-enclosure") || w.Finds != 1 {
		t.Errorf("a clean proof with more isolated leaves %+v, proved %v", w.Found, w.Proved("control-enclosure"))
	}
}

func TestOneRepeatUnderLoadAndOnlyLiveToNeutralOfOneRCD(t *testing.T) {
	t.Parallel()
	for line, allowed := range map[string]bool{
		"permanent-live to neutral": true, "hot-water-call to neutral": true,
		"permanent-live to earth": false, "heat-call to neutral": false, "permanent-live to heat-call": false,
		"cylinder-a to neutral": false, "permanent-live to neutral loaded": false,
	} {
		ctx, w := finding(t, line, 60)
		repeat := RepeatForm(ctx.Plant, w)
		if (len(repeat) == 1) != allowed {
			t.Errorf("%s: repeat %v", line, names(repeat))
		}
		if !allowed {
			continue
		}
		values := []journal.Field{{Name: line + loaded, Typed: "0.2", Value: 0.2}}
		if r := Guard(ctx, w, OfForm("control-enclosure", values)); r != nil {
			t.Errorf("%s: %s", line, r.Why)
		}
		w.Apply(journal.Event{Body: &journal.Acted{Act: act(journal.ActProve, "control-enclosure"), Outcome: journal.Done, Form: values}})
		if w.Found == nil || !w.Found.Repeated || w.Finds != 1 {
			t.Errorf("%s: a ghost that collapsed cleared the find, or counted as another: %+v", line, w.Found)
		}
		refused(t, Guard(ctx, w, OfForm("control-enclosure", values)), Halt, "60 V")
	}
}

func TestAfterAFindTheDevicesAboveAreNamedThenTheFurtherSupplies(t *testing.T) {
	t.Parallel()
	ctx, w := finding(t, "heat-call to earth", 231)
	ids := func() (out []string) {
		for _, d := range Candidates(ctx.Plant, w) {
			out = append(out, d.ID)
		}
		return out
	}
	if got := ids(); !slices.Equal(got, []string{"unit-breaker", "booster-isolator"}) {
		t.Errorf("candidates %v", got)
	}
	apply(w, act(journal.ActSwitchOff, "booster-isolator"), act(journal.ActLock, "booster-isolator"))
	if got := ids(); !slices.Equal(got, []string{"unit-breaker"}) {
		t.Errorf("with every supply isolated the candidates are %v", got)
	}
}

func TestASecondFindIsReferred(t *testing.T) {
	t.Parallel()
	ctx, w := finding(t, "heat-call to earth", 231)
	apply(w, act(journal.ActSwitchOff, "booster-isolator"), act(journal.ActLock, "booster-isolator"))
	find(t, ctx, w, "control-enclosure", "permanent-live to earth", 90)
	apply(w, act(journal.ActSwitchOff, "unit-breaker"), act(journal.ActLock, "unit-breaker"))
	for _, r := range []*Refusal{
		Guard(ctx, w, OfAct(act(journal.ActProve, "control-enclosure"))),
		Available(ctx, w, OfCheck(look(nil, 0))),
		Available(ctx, w, OfCheck(ohms(ctx, "permanent-live", "neutral"))),
	} {
		refused(t, r, Halt, "90 V")
		if r != nil && r.Referral != voltageFound {
			t.Errorf("referral %q", r.Referral)
		}
	}
	apply(w, act(journal.ActProve, "control-enclosure"))
	if w.Found == nil || w.Proved("control-enclosure") {
		t.Error("a third form cleared a second find")
	}
	if acts := Plan(ctx, w, OfCheck(ohms(ctx, "permanent-live", "neutral")), nil); len(acts) != 0 {
		t.Errorf("planned %v", keys(acts))
	}
}

func TestAPlanAfterAFindIsolatesMoreAndProvesAgain(t *testing.T) {
	t.Parallel()
	for _, pause := range []bool{false, true} {
		ctx, w := finding(t, "heat-call to earth", 231)
		if pause {
			w.Apply(journal.Event{Body: &journal.Resumed{}})
		}
		acts := reach(t, ctx, w, ohms(ctx, "valve-live", "valve-neutral"))
		at := slices.Index(keys(acts), "prove control-enclosure")
		if at < 0 || !slices.Contains(keys(acts[:at]), "lock booster-isolator") {
			t.Errorf("paused %v: %v", pause, keys(acts))
		}
	}
}

func TestRelockingTheSameDeviceIsNoFurtherIsolation(t *testing.T) {
	t.Parallel()
	ctx, w := finding(t, "heat-call to earth", 231)
	w.Apply(journal.Event{Body: &journal.Resumed{}})
	for _, d := range []string{"unit-isolator", "controls-spur"} {
		apply(w, act(journal.ActSwitchOff, d), act(journal.ActLock, d))
	}
	apply(w, act(journal.ActOpen, "control-enclosure"))
	refused(t, Guard(ctx, w, OfAct(act(journal.ActProve, "control-enclosure"))), Halt, "231 V")
}

func TestAFindEndsEveryProofAndACleanFormAloneClearsNothing(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "hot-water-call", "valve-live"))
	find(t, ctx, w, "control-enclosure", "heat-call to earth", 231)
	apply(w, act(journal.ActProve, "control-enclosure"))
	if w.Found == nil {
		t.Fatal("a clean form with nothing more isolated cleared the find")
	}
	apply(w, act(journal.ActSwitchOff, "booster-isolator"), act(journal.ActLock, "booster-isolator"), act(journal.ActProve, "control-enclosure"))
	if !w.Proved("control-enclosure") || w.Proved("valve-box") {
		t.Errorf("proved again: control-enclosure %v, valve-box %v; only the first was", w.Proved("control-enclosure"), w.Proved("valve-box"))
	}
}
