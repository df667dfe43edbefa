package safety

import (
	"slices"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// With the cover of an isolator off its handle may be off too, and its incoming
// terminals are live while the device before it is on (common practice, no source).
func TestASwitchWithItsOwnCoverOffIsNotWorked(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, volts(ctx, "out-live", "out-neutral", nil))
	if w.Enclosures["unit-isolator-box"].Open != Set || w.Isolated("unit-isolator-box") {
		t.Fatal("the box of the isolator is not open and live")
	}
	for _, do := range []string{journal.ActSwitchOff, journal.ActLock, journal.ActUnlock, journal.ActSwitchOn} {
		refused(t, Guard(ctx, w, OfAct(act(do, "unit-isolator"))), Order, "the device before it")
	}
	got := keys(Plan(ctx, w, OfNeed(trees.Need{Power: trees.DeadWay, Enclosures: []string{"control-enclosure"}}), nil))
	if !slices.Contains(got, "lock unit-breaker") || slices.Contains(got, "lock unit-isolator") {
		t.Errorf("the way to a dead board is %v", got)
	}
}

func TestASwitchOfOursGoesBackOnBeforeItsOwnCoverComesOff(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "permanent-live", "neutral"))
	got := keys(reach(t, ctx, w, volts(ctx, "out-live", "out-neutral", nil)))
	on, open := slices.Index(got, "switch on unit-isolator"), slices.Index(got, "open unit-isolator-box")
	if on < 0 || open < on || slices.Index(got, "lock unit-breaker") > on {
		t.Errorf("the isolator is not put back on with the breaker locked off, before its cover: %v", got)
	}
}
