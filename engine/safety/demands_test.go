package safety

import (
	"slices"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// headProved has the booster's head proved with the board in power: the plant
// stopped, the booster's supply locked off, the head open and its form filled.
func headProved(t *testing.T, before ...journal.Act) (Context, *World) {
	t.Helper()
	ctx, w := engineer(), New(house())
	apply(w, act(journal.ActRelease, "heat"), act(journal.ActRelease, "hot-water"), act(journal.ActRelease, "booster"),
		journal.Act{Do: journal.ActWait, On: "hot-water", Minutes: 3})
	apply(w, before...)
	apply(w, act(journal.ActSwitchOff, "booster-isolator"), act(journal.ActLock, "booster-isolator"),
		act(journal.ActOpen, "booster-head"), act(journal.ActProve, "booster-head"))
	if !w.Proved("booster-head") {
		t.Fatal("the booster's head is not proved")
	}
	return ctx, w
}

// What was called for a proof runs until its last line: three minutes are the
// hot water's time to stop in the fixture.
func TestCallsOfAProofAreWithdrawnAndHaveTheirTimeToStop(t *testing.T) {
	t.Parallel()
	ctx, w := headProved(t)
	for _, id := range []string{"hot-water", "booster"} {
		if w.Calls[id] != (Call{Asked: Off}) {
			t.Errorf("after its proof %s is %+v", id, w.Calls[id])
		}
	}
	off := OfAct(act(journal.ActSwitchOff, "unit-isolator"))
	refused(t, Guard(ctx, w, off), Order, "withdraw heat")
	apply(w, act(journal.ActRelease, "heat"), journal.Act{Do: journal.ActWait, On: "heat", Minutes: 2})
	refused(t, Guard(ctx, w, off), Order, "withdraw hot water and wait 3 minutes")
	apply(w, journal.Act{Do: journal.ActWait, On: "hot-water", Minutes: 1})
	if r := Guard(ctx, w, off); r != nil {
		t.Errorf("withdrawn and waited out: %s", r.Why)
	}
}

func TestPlanWaitsForWhatAProofCalled(t *testing.T) {
	t.Parallel()
	ctx, w := headProved(t)
	got := keys(reach(t, ctx, w, ohms(ctx, "valve-live", "valve-neutral")))
	at := slices.Index(got, "switch off unit-isolator")
	if at < 0 || !slices.Contains(got[:at], "wait hot-water") || slices.Contains(got[:at], "release hot-water") {
		t.Errorf("planned %v", got)
	}
}

func TestCallThatStoodBeforeAProofStillDoes(t *testing.T) {
	t.Parallel()
	_, w := headProved(t, act(journal.ActCall, "hot-water"))
	if w.Calls["hot-water"].Asked != On || w.Calls["booster"].Asked != Off {
		t.Errorf("after the proof: %+v", w.Calls)
	}
}

// A call that is not known since a pause is not known after a proof either, and
// the waits before it count no more.
func TestCallNotKnownBeforeAProofStaysSo(t *testing.T) {
	t.Parallel()
	_, w := headProved(t, act(journal.ActCall, "booster"))
	w.Apply(journal.Event{Body: &journal.Resumed{}})
	w.Apply(journal.Event{Body: &journal.Acted{Act: act(journal.ActRelease, "booster"), Outcome: journal.Cannot}})
	apply(w, journal.Act{Do: journal.ActWait, On: "booster", Minutes: 9}, act(journal.ActSwitchOff, "booster-isolator"), act(journal.ActLock, "booster-isolator"),
		act(journal.ActOpen, "booster-head"), act(journal.ActProve, "booster-head"))
	if w.Calls["booster"] != (Call{Asked: Lapsed}) || len(w.Cannot) > 0 {
		t.Errorf("after the proof: %+v, %v", w.Calls["booster"], w.Cannot)
	}
}

func TestNothingIsCalledForAProofWhileTheBoardHasNoPower(t *testing.T) {
	t.Parallel()
	_, w := headProved(t, act(journal.ActSwitchOff, "unit-isolator"), act(journal.ActLock, "unit-isolator"))
	if k := w.Calls["hot-water"]; !k.Stopped || k.Minutes < 3 {
		t.Errorf("the hot water is %+v, though it could not be called", k)
	}
}

// Where nobody knows what feeds the board, it has power and was called.
func TestBoardThatIsNotKnownIsTakenToHavePower(t *testing.T) {
	t.Parallel()
	p := *house()
	p.Parts = nil
	w := New(trees.NewPlant(p))
	apply(w, act(journal.ActRelease, "hot-water"), journal.Act{Do: journal.ActWait, On: "hot-water", Minutes: 3},
		act(journal.ActOpen, "limit-box"), act(journal.ActProve, "limit-box"))
	if w.Calls["hot-water"] != (Call{Asked: Off}) {
		t.Errorf("after the proof hot water is %+v", w.Calls["hot-water"])
	}
}

// The find may come before what was called is withdrawn.
func TestCallsOfAProofThatFoundVoltsAreNotKnown(t *testing.T) {
	t.Parallel()
	ctx, w := headProved(t)
	values := Clean(Form(ctx.Plant, "booster-head"))
	values[len(values)-2].Value = 118
	w.Apply(journal.Event{Body: &journal.Acted{Act: act(journal.ActProve, "booster-head"), Outcome: journal.Found, Form: values}})
	for _, id := range []string{"hot-water", "booster"} {
		if w.Calls[id] != (Call{Asked: Lapsed}) {
			t.Errorf("after a find %s is %+v", id, w.Calls[id])
		}
	}
}

func TestLitScreenHaltsAndIsolatesFurther(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "valve-live", "valve-neutral"))
	values := []journal.Field{{Name: testerBefore, Typed: "yes"}, {Name: "heat called", Typed: "yes"}, {Name: controllerDark, Typed: "no"}}
	w.Apply(journal.Event{Body: &journal.Acted{Act: act(journal.ActProve, "valve-box"), Outcome: journal.Done, Form: values}})
	if w.Found == nil || !w.Found.Lit || w.Proved("valve-box") {
		t.Fatalf("found %+v", w.Found)
	}
	refused(t, Guard(ctx, w, OfAct(act(journal.ActUnplug, "valve"))), Halt, "screen was lit while proving the valve-box")
	if RepeatForm(ctx.Plant, w) != nil {
		t.Error("a screen is to be repeated under load")
	}
	if c := Candidates(ctx.Plant, w); len(c) == 0 || c[0].ID != "unit-breaker" {
		t.Errorf("the first that may feed it is %+v", c)
	}
	acts := keys(reach(t, ctx, w, ohms(ctx, "valve-live", "valve-neutral")))
	if !slices.Contains(acts, "lock unit-breaker") || !slices.Contains(acts, "prove valve-box") || w.Calls["hot-water"].Asked != Off {
		t.Errorf("planned %v, hot water %+v", acts, w.Calls["hot-water"])
	}
}

// A reset puts the plant to work; where it trips again some of it was never called.
func TestWhatWasCalledForAResetIsWithdrawnBeforeAnythingIsSwitchedOff(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	apply(w, act(journal.ActRelease, "heat"), act(journal.ActRelease, "hot-water"), act(journal.ActRelease, "booster"),
		journal.Act{Do: journal.ActWait, On: "hot-water", Minutes: 3})
	reset := look(nil, 0)
	reset.Does = []string{"reset unit-breaker, call heat", "call hot-water, call nothing-here"}
	called := Calling(reset)
	if !slices.Equal(called, []string{"heat", "hot-water", "nothing-here"}) {
		t.Errorf("called %v", called)
	}
	w.Apply(journal.Event{Body: &journal.Read{Check: "reset", Called: called}})
	if len(w.Calls) != 3 {
		t.Errorf("calls %+v", w.Calls)
	}
	refused(t, Guard(ctx, w, OfAct(act(journal.ActSwitchOff, "booster-isolator"))), Order, "withdraw heat")
	for _, id := range []string{"heat", "hot-water"} {
		if w.Calls[id] != (Call{Asked: Lapsed}) {
			t.Errorf("%s is %+v", id, w.Calls[id])
		}
	}
}

// Withdrawn before a pause and not again: it may have been running until then.
func TestWhatCannotBeWithdrawnAgainHasItsTimeToStop(t *testing.T) {
	t.Parallel()
	ctx, off := engineer(), OfAct(act(journal.ActSwitchOff, "unit-isolator"))
	in := func(id string) journal.Event {
		return journal.Event{Body: &journal.Acted{Act: act(journal.ActRelease, id), Outcome: journal.Cannot}}
	}
	stopping := func(w *World) {
		for _, id := range []string{"heat", "booster"} {
			apply(w, act(journal.ActRelease, id))
		}
	}
	w := New(house())
	apply(w, act(journal.ActRelease, "hot-water"))
	w.Apply(journal.Event{Body: &journal.Resumed{}})
	w.Apply(in("hot-water"))
	stopping(w)
	apply(w, journal.Act{Do: journal.ActWait, On: "heat", Minutes: 2})
	refused(t, Guard(ctx, w, off), Order, "wait 3 minutes")
	if got := keys(Plan(ctx, w, OfCheck(ohms(ctx, "valve-live", "valve-neutral")), nil)); got[0] != "wait hot-water" {
		t.Errorf("planned %v", got)
	}
	apply(w, journal.Act{Do: journal.ActWait, On: "heat", Minutes: 1})
	apply(w, act(journal.ActSwitchOn, "controls-spur")) // power that comes back starts nothing
	if r := Guard(ctx, w, off); r != nil {
		t.Errorf("waited out: %s", r.Why)
	}
	for name, begin := range map[string]func(w *World){
		"stands":   func(w *World) { apply(w, act(journal.ActCall, "hot-water")); w.Apply(in("hot-water")) },
		"as found": func(w *World) { w.Apply(in("hot-water")) },
	} {
		w := New(house())
		stopping(w)
		apply(w, journal.Act{Do: journal.ActWait, On: "heat", Minutes: 2})
		begin(w)
		if r := Guard(ctx, w, off); r != nil {
			t.Errorf("one that %s and cannot be withdrawn keeps the plant on: %s", name, r.Why)
		}
	}
	withdrawn := New(house())
	apply(withdrawn, act(journal.ActRelease, "hot-water"))
	withdrawn.Apply(in("hot-water"))
	stopping(withdrawn)
	apply(withdrawn, journal.Act{Do: journal.ActWait, On: "heat", Minutes: 2})
	refused(t, Guard(ctx, withdrawn, off), Order, "wait 3 minutes")
}
