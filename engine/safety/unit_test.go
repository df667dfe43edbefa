package safety

import (
	"slices"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// phoneHouse is the house with the power enclosure marked as the unit itself and
// a jurisdiction that never lets it be opened by phone (handbook 5.2).
func phoneHouse(phone bool) Context {
	ctx := engineer()
	e := ctx.Plant.Enclosure("power-enclosure")
	e.Unit, e.Sealed = true, false
	for i, g := range ctx.Jurisdiction.Gates {
		if g.May == "outdoor-unit" {
			ctx.Jurisdiction.Gates[i].ByPhone = "never"
		}
	}
	ctx.Hands.Phone = phone
	return ctx
}

func TestTheOutdoorUnitIsNeverOpenedByPhone(t *testing.T) {
	t.Parallel()
	for phone, refusedIt := range map[bool]bool{true: true, false: false} {
		ctx := phoneHouse(phone)
		inside := OfCheck(ohms(ctx, "unit-live", "unit-neutral"))
		if r := Available(ctx, New(ctx.Plant), inside); (r != nil) != refusedIt {
			t.Errorf("by phone %v: a reading in the unit gives %v", phone, r)
		}
		r := Guard(ctx, New(ctx.Plant), OfAct(act(journal.ActOpen, "power-enclosure")))
		if byHands := r != nil && r.Kind == Hands; byHands != refusedIt {
			t.Errorf("by phone %v: its cover gives %v", phone, r)
		}
		if r := Available(ctx, New(ctx.Plant), OfCheck(ohms(ctx, "valve-live", "valve-neutral"))); r != nil {
			t.Errorf("by phone %v: a box indoors gives %v", phone, r)
		}
	}
}

func TestWhatCallsChangedIsPutBackLast(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	for _, c := range ctx.Plant.Calls {
		c.Back = "as noted"
	}
	w := New(ctx.Plant)
	if acts := PlanRestore(ctx, w); len(acts) > 0 {
		t.Fatalf("untouched, and %v is to be put back", keys(acts))
	}
	apply(w, act(journal.ActRelease, "heat"), act(journal.ActCall, "hot-water"))
	back := PlanRestore(ctx, w)
	if got, want := keys(back), []string{"release hot-water", "give back heat", "give back hot-water"}; !sameOrder(got, want) {
		t.Errorf("%v, expected it to end with %v", got, want)
	}
	for _, a := range PlanClosed(ctx, w) {
		if a.Do == journal.ActBack {
			t.Error("what is watched with the plant closed keeps its calls")
		}
	}
	for _, a := range back {
		apply(w, a)
	}
	if left := PlanRestore(ctx, w); len(left) > 0 {
		t.Errorf("and then still %v", keys(left))
	}
}

func TestOnlyAnElementIsCalledWithItsOwnCaution(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	for call, want := range map[string]bool{"booster": true, "immersion": true, "heat": false, "hot-water": false} {
		for _, thing := range []Thing{OfAct(act(journal.ActCall, call)), OfCheck(look(map[string]bool{call: true}, 1))} {
			if got := slices.Contains(Cautions(ctx, thing), "booster"); got != want {
				t.Errorf("%s: the booster's caution is shown: %v", call, got)
			}
		}
	}
	if !slices.Contains(Cautions(ctx, OfNeed(trees.Need{Power: trees.Outside, Asks: []string{"lever"}})), "lever") {
		t.Error("a lever is worked without its caution")
	}
}

// sameOrder says whether two lists hold the same words, those of one kind in any order.
func sameOrder(got, want []string) bool {
	return len(got) == len(want) && got[0] == want[0] && slices.Equal(slices.Sorted(slices.Values(got[1:])), want[1:])
}
