package safety

import (
	"slices"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/trees"

	"github.com/google/go-cmp/cmp"
)

func TestAPlanComesInTheOrderAPersonExpects(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	want := []string{
		"release heat", "release hot-water", "release booster", "wait hot-water",
		"switch off unit-isolator", "lock unit-isolator", "switch off controls-spur", "lock controls-spur",
		"open control-enclosure", "open valve-box",
		"prove control-enclosure",
		"unplug cylinder-sensor",
	}
	if d := cmp.Diff(want, keys(reach(t, ctx, w, ohms(ctx, "permanent-live", "neutral", "cylinder-sensor"), "control-enclosure", "valve-box"))); d != "" {
		t.Errorf("dead:\n%s", d)
	}
	want = []string{
		"refit cylinder-sensor", "unlock unit-isolator", "switch on unit-isolator", "unlock controls-spur", "switch on controls-spur",
		"call hot-water", "wait hot-water",
	}
	if d := cmp.Diff(want, keys(reach(t, ctx, w, volts(ctx, "hot-water-call", "neutral", map[string]bool{"hot-water": true}), "valve-box"))); d != "" {
		t.Errorf("then live:\n%s", d)
	}
	if got := reach(t, ctx, w, volts(ctx, "valve-live", "valve-neutral", map[string]bool{"hot-water": true})); len(got) != 0 {
		t.Errorf("the next reading in a box opened beforehand takes %v", keys(got))
	}
	want = []string{
		"release heat", "release hot-water", "wait hot-water",
		"switch off unit-isolator", "lock unit-isolator", "switch off controls-spur", "lock controls-spur",
		"prove control-enclosure", "prove valve-box", "close control-enclosure", "close valve-box", "release heat",
		"unlock unit-isolator", "switch on unit-isolator", "unlock controls-spur", "switch on controls-spur",
	}
	if d := cmp.Diff(want, keys(PlanRestore(ctx, w))); d != "" {
		t.Errorf("then back:\n%s", d)
	}
}

func TestFiveOrdinaryChecksTakeOneDeadPeriod(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	on := map[string]bool{"hot-water": true}
	checks := []*trees.BoundCheck{
		volts(ctx, "hot-water-call", "neutral", on), volts(ctx, "limit-out", "valve-neutral", on),
		volts(ctx, "valve-live", "valve-neutral", on), volts(ctx, "permanent-live", "neutral", on), volts(ctx, "limit-in", "valve-neutral", on),
	}
	var all []string
	for _, c := range checks {
		all = append(all, keys(reach(t, ctx, w, c, "control-enclosure", "limit-box", "valve-box"))...)
	}
	n := 0
	for _, k := range all {
		if k == "lock unit-isolator" {
			n++
		}
	}
	if n != 1 || len(all) > 20 {
		t.Errorf("%d dead periods, %d acts: %v", n, len(all), all)
	}
}

func TestADeadPeriodIsWidenedToTheCoversAhead(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	got := keys(Plan(ctx, w, OfCheck(ohms(ctx, "permanent-live", "neutral")), []string{"booster-box"}))
	for _, k := range []string{"lock booster-isolator", "open booster-box"} {
		if i := slices.Index(got, k); i < 0 || i > slices.Index(got, "prove control-enclosure") {
			t.Errorf("%s does not come before the first proof: %v", k, got)
		}
	}
}

func TestTheNearestIsolatorThatServesEveryEnclosureIsChosen(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	got := keys(Plan(ctx, w, OfNeed(trees.Need{Power: trees.DeadWay, Enclosures: []string{"control-enclosure", "unit-isolator-box"}}), nil))
	if !slices.Contains(got, "lock unit-breaker") || slices.Contains(got, "lock unit-isolator") {
		t.Errorf("the breaker serves both: %v", got)
	}
}

func TestAnActThatCannotBeDoneIsGoneRoundOrMakesTheCheckUnavailable(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	cannot := func(do, on string) {
		w.Apply(journal.Event{Body: &journal.Acted{Act: act(do, on), Outcome: journal.Cannot}})
	}
	c := ohms(ctx, "permanent-live", "neutral")
	cannot(journal.ActLock, "unit-isolator")
	cannot(journal.ActRelease, "hot-water")
	got := keys(Plan(ctx, w, OfCheck(c), nil))
	if !slices.Contains(got, "lock unit-breaker") || slices.Contains(got, "release hot-water") {
		t.Errorf("planned %v", got)
	}
	if r := Available(ctx, w, OfCheck(c)); r != nil {
		t.Errorf("the breaker is left and it is refused: %s", r.Why)
	}
	cannot(journal.ActSwitchOff, "controls-spur")
	r := Available(ctx, w, OfCheck(c))
	refused(t, r, Never, "switch off, the controls spur")
	if r != nil && r.Referral != noIsolation {
		t.Errorf("referral %q", r.Referral)
	}
	if r := Available(ctx, w, OfCheck(look(nil, 0))); r != nil {
		t.Errorf("a look needs no isolation and is refused: %s", r.Why)
	}
	w.Apply(journal.Event{Body: &journal.Handed{}})
	if r := Available(ctx, w, OfCheck(c)); r != nil {
		t.Errorf("other hands may be able to: %s", r.Why)
	}
}

func TestWhatIsAlreadySoIsNotDoneAgain(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	for _, c := range everything(ctx) {
		reach(t, ctx, w, c)
		if again := Plan(ctx, w, OfCheck(c), nil); len(again) != 0 {
			t.Errorf("%s: planned again: %v", c.ID, keys(again))
		}
	}
}

// Its own isolator is put on for a reading in its box, and with that what it kept
// dead is proved no more: the plug in there waits for a new proof.
func TestWhatASwitchPutOnTookBackIsProvedAgain(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "permanent-live", "neutral", "cylinder-sensor"))
	c := OfCheck(ohms(ctx, "in-live", "out-live"))
	if r := Available(ctx, w, c); r != nil {
		t.Fatalf("there is a way and none is found: %s", r.Why)
	}
	acts := keys(Plan(ctx, w, c, nil))
	on, proved := slices.Index(acts, "switch on unit-isolator"), slices.Index(acts, "prove control-enclosure")
	if on < 0 || proved < on || proved > slices.Index(acts, "refit cylinder-sensor") {
		t.Errorf("not proved again between switch and plug: %v", acts)
	}
}

func TestARemedyDoesNotRefitWhatItDoesNotMind(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "valve-live", "valve-neutral", "valve"))
	if got := Plan(ctx, w, OfNeed(trees.Need{Power: trees.DeadWay, Enclosures: []string{"valve-box"}}), nil); len(got) != 0 {
		t.Errorf("planned %v", keys(got))
	}
}

func TestLeavingThePlantSafePutsNothingBackOn(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	if got := PlanSafe(ctx, w); len(got) != 0 {
		t.Errorf("an untouched plant would be left by %v", keys(got))
	}
	reach(t, ctx, w, volts(ctx, "valve-live", "valve-neutral", map[string]bool{"hot-water": true}))
	after, r := Rehearse(ctx, w, PlanSafe(ctx, w))
	if r != nil {
		t.Fatal(r.Why)
	}
	if after.Enclosures["valve-box"].Open != AsFound || !after.Isolated("valve-box") || len(PlanSafe(ctx, after)) != 0 {
		t.Errorf("left with %+v, locked %v", after.Enclosures, after.Locked())
	}
}

func TestStagesAreWhatIsDoneInOneGo(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	n := trees.Need{Power: trees.DeadWay, Enclosures: []string{"control-enclosure", "valve-box"}, Unplugged: []string{"valve"}}
	var got []int
	for _, s := range Stage(Plan(ctx, New(ctx.Plant), OfNeed(n), nil)) {
		got = append(got, len(s))
	}
	// demand, isolate two supplies, two covers, two forms, a plug
	if d := cmp.Diff([]int{4, 4, 2, 1, 1, 1}, got); d != "" {
		t.Error(d)
	}
	if Stage(nil) != nil {
		t.Error("nothing to do has stages")
	}
}

func TestCautionsComeAtTheirTriggers(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	reset := look(nil, 0, "limit")
	reset.Check = &trees.Check{Once: true}
	cases := []struct {
		name  string
		thing Thing
		want  []string
	}{
		{"mains cover by the cylinder", OfAct(act(journal.ActOpen, "valve-box")), []string{"cover", "hot"}},
		{"mains cover outside", OfAct(act(journal.ActOpen, "unit-isolator-box")), []string{"cover", "outdoor"}},
		{"low-voltage cover", OfAct(act(journal.ActOpen, "controller-base")), []string{"elv"}},
		{"proof", OfAct(act(journal.ActProve, "control-enclosure")), []string{"dead", "low-impedance", "earth-pair"}},
		{"proof with the booster called", OfAct(act(journal.ActProve, "booster-head")), []string{"dead", "low-impedance", "earth-pair", "booster"}},
		{"power back outside", OfAct(act(journal.ActSwitchOn, "unit-isolator")), []string{"restore", "outdoor"}},
		{"call", OfAct(act(journal.ActCall, "heat")), []string{"call"}},
		{"live to neutral", OfCheck(volts(ctx, "permanent-live", "neutral", map[string]bool{"heat": true}, "low impedance")), []string{"live", "low-impedance", "call"}},
		{"live to earth", OfCheck(volts(ctx, "permanent-live", "earth", nil)), []string{"live", "earth-pair"}},
		{"ohms", OfCheck(ohms(ctx, "valve-live", "valve-neutral")), []string{"dead", "hot"}},
		{"a reset", OfCheck(reset), []string{"limit", "reset"}},
		{"a look", OfCheck(look(nil, 0)), nil},
	}
	for _, c := range cases {
		if d := cmp.Diff(c.want, Cautions(ctx, c.thing)); d != "" {
			t.Errorf("%s:\n%s", c.name, d)
		}
	}
}
