package safety

import (
	"slices"
	"testing"

	"faultwalk/engine/journal"
)

// unitOff is the unit's wiring cover with the unit's and the booster's supplies
// off and locked.
func unitOff(t *testing.T) (Context, *World) {
	t.Helper()
	ctx := phoneHouse(false)
	w := New(ctx.Plant)
	for _, a := range Plan(ctx, w, OfCheck(ohms(ctx, "unit-live", "unit-neutral")), nil) {
		if a.Do == journal.ActOpen || a.Do == journal.ActWait && a.On == "power-enclosure" {
			break
		}
		apply(w, a)
	}
	if !w.Isolated("power-enclosure") {
		t.Fatal("the unit is not isolated before its cover")
	}
	return ctx, w
}

// Ten minutes: handbook 1.3 and C12, common practice without a source.
func TestADriveIsGivenTenMinutesBeforeItsCoverComesOff(t *testing.T) {
	t.Parallel()
	ctx, w := unitOff(t)
	off := OfAct(act(journal.ActOpen, "power-enclosure"))
	wait := func(minutes float64) {
		apply(w, journal.Act{Do: journal.ActWait, On: "power-enclosure", Minutes: minutes})
	}
	refused(t, Guard(ctx, w, off), Order, "wait 10 minutes more")
	wait(6)
	refused(t, Guard(ctx, w, off), Order, "wait 4 minutes more")
	wait(4)
	if r := Guard(ctx, w, off); r != nil {
		t.Errorf("after ten minutes: %s", r.Why)
	}
	w.Apply(journal.Event{Body: &journal.Handed{}})
	if w.Rested["power-enclosure"] != 0 {
		t.Error("other hands take over a wait nobody saw")
	}
}

func TestTheWaitForADriveIsPlannedOnceAndAgainAfterPower(t *testing.T) {
	t.Parallel()
	ctx := phoneHouse(false)
	w := New(ctx.Plant)
	c := ohms(ctx, "unit-live", "unit-neutral")
	order := keys(Plan(ctx, w, OfCheck(c), nil))
	at := func(key string) int { return slices.Index(order, key) }
	if at("wait power-enclosure") < at("lock unit-isolator") || at("wait power-enclosure") > at("open power-enclosure") {
		t.Errorf("not between lock and cover: %v", order)
	}
	for _, a := range Plan(ctx, w, OfCheck(c), nil) {
		apply(w, a)
	}
	if again := keys(Plan(ctx, w, OfCheck(c), nil)); slices.Contains(again, "wait power-enclosure") {
		t.Errorf("waited for already: %v", again)
	}
	for _, a := range Plan(ctx, w, OfCheck(volts(ctx, "unit-live", "unit-neutral", nil)), nil) {
		apply(w, a)
	}
	if w.Rested["power-enclosure"] != 0 {
		t.Error("power was back and the drive counts as discharged")
	}
	if again := keys(Plan(ctx, w, OfCheck(c), nil)); !slices.Contains(again, "wait power-enclosure") {
		t.Errorf("charged again, and proved without a wait: %v", again)
	}
}

func TestTimeDoesNotRunForADriveThatHasPower(t *testing.T) {
	t.Parallel()
	ctx := phoneHouse(false)
	w := New(ctx.Plant)
	refused(t, Guard(ctx, w, OfAct(journal.Act{Do: journal.ActWait, On: "power-enclosure", Minutes: 10})), Order, "switch off and lock")
	apply(w, journal.Act{Do: journal.ActWait, Minutes: 30})
	if w.Rested["power-enclosure"] != 0 {
		t.Error("half an hour with power on counts")
	}
	if r := Guard(ctx, w, OfAct(journal.Act{Do: journal.ActWait, On: "valve-box", Minutes: 10})); r == nil || r.Kind != Unknown {
		t.Errorf("a box without a drive is waited for: %v", r)
	}
}
