package monitor_test

import (
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/monitor"
	"faultwalk/trees"
)

// example is one event list and what the monitor is to say of it: nothing, or
// these words.
type example struct {
	name  string
	plant string
	does  script
	words []string
}

func run(t *testing.T, examples []example) {
	t.Helper()
	for _, e := range examples {
		t.Run(e.name, func(t *testing.T) {
			t.Parallel()
			if e.plant == "" {
				e.plant = "millrace-small"
			}
			want(t, judge(e.plant, e.does...), e.words...)
		})
	}
}

func says(words ...string) []string { return words }

func TestHandsStayOutOfWhatIsNotProvedDead(t *testing.T) {
	t.Parallel()
	const core = "core-continuity of switch-wire"
	run(t, []example{
		{name: "ohms in a proved box", does: boxDead().then(read("winding", "ohms"))},
		{name: "ohms in an open box not proved", does: boxOpen().then(read("winding", "ohms")), words: says("not proved dead")},
		{name: "ohms with power back", does: boxLive().then(read("winding", "ohms")), words: says("reached by unit", "not proved dead")},
		{name: "continuity with one end in a shut box", does: boxDead().then(read(core, "continuity")),
			words: says("cover of control-enclosure is on", "reached by booster", "control-enclosure is not proved dead")},
		{name: "a look into a proved box", does: boxDead().then(look("box-inside of diverter-box"))},
		{name: "a look into a box not proved", does: boxOpen().then(look("box-inside of diverter-box")), words: says("not proved dead")},
		{name: "a plug parted in a proved box", does: boxDead().then(do(journal.ActUnplug, "diverter"))},
		{name: "a plug parted before the proof", does: boxOpen().then(do(journal.ActUnplug, "diverter")), words: says("unplug: diverter")},
		{name: "a plug refitted with power back", does: boxLive().then(do(journal.ActRefit, "diverter")),
			words: says("reached by unit", "not proved dead")},
		{name: "a plug outside every mains box", does: script{hands("installer"), do(journal.ActUnplug, "room-sensor")}},
		{name: "the cover put on dead", does: boxDead().then(do(journal.ActClose, "diverter-box"))},
		{name: "the cover put on live", does: boxLive().then(do(journal.ActClose, "diverter-box")),
			words: says("reached by unit", "not proved dead")},
		{name: "hands in again after the cover went on", does: boxDead().then(do(journal.ActClose, "diverter-box"), do(journal.ActOpen, "diverter-box"),
			read("winding", "ohms")), words: says("not proved dead")},
		{name: "a repair in a box not proved", does: boxDead().then(&journal.Repaired{Cause: "open-core of switch-wire"}),
			words: says("cover of control-enclosure is on", "reached by booster", "control-enclosure is not proved dead")},
		{name: "a repair outside every box", does: script{hands("householder"), &journal.Repaired{Cause: "setting of clock"}}},
		{name: "a repair nobody knows", does: boxDead().then(&journal.Repaired{Cause: "gremlins"}), words: says("nobody knows the cause")},
		{name: "a check nobody knows", does: boxDead().then(read("gremlins", "ohms")), words: says("nobody knows the check")},
	})
}

func TestProofIsVoidOnceAnythingCouldHaveChanged(t *testing.T) {
	t.Parallel()
	relock := script{do(journal.ActSwitchOff, "unit-isolator"), do(journal.ActLock, "unit-isolator")}
	ohms := read("winding", "ohms")
	run(t, []example{
		{name: "unlocked and locked again", does: boxDead().then(do(journal.ActUnlock, "unit-isolator")).then(relock...).then(ohms),
			words: says("not proved dead")},
		{name: "another supply switched on", does: boxDead().then(do(journal.ActSwitchOn, "booster-isolator"), ohms)},
		{name: "resumed", does: boxDead().then(&journal.Resumed{}).then(relock...).then(ohms), words: says("not proved dead")},
		{name: "resumed, locks not visited", does: boxDead().then(&journal.Resumed{}, form("diverter-box", boxLines), ohms),
			words: says("reached by unit", "not proved dead")},
		{name: "resumed, locked and proved again", does: boxDead().then(&journal.Resumed{}).then(relock...).then(form("diverter-box", boxLines), ohms)},
		{name: "handed over", does: boxDead().then(hands("electrical")).then(relock...).then(ohms), words: says("not proved dead")},
		{name: "switched off and not locked", does: script{hands("electrical"), do(journal.ActSwitchOff, "unit-isolator"), do(journal.ActOpen, "diverter-box"),
			form("diverter-box", boxLines), ohms}, words: says("open: the cover", "reached by unit", "not proved dead")},
		{name: "a lock that could not be fitted", does: script{hands("electrical"), do(journal.ActSwitchOff, "unit-isolator"),
			cannot(journal.ActLock, "unit-isolator"), do(journal.ActOpen, "diverter-box")}, words: says("unit not off and locked")},
		{name: "isolated after the proof", does: boxOpen().then(do(journal.ActUnlock, "unit-isolator"), form("diverter-box", boxLines)).then(relock...).then(ohms),
			words: says("not proved dead")},
		{name: "a proof taken back in the mind stands in the world", does: boxDead().then(&journal.Retracted{Event: 5}, ohms)},
		{name: "unlocking taken back in the mind is done in the world", does: boxDead().then(do(journal.ActUnlock, "unit-isolator"),
			&journal.Retracted{Event: 6}, ohms), words: says("reached by unit", "not proved dead")},
	})
}

func TestProofIsOnlyAWholeForm(t *testing.T) {
	t.Parallel()
	ohms := read("winding", "ohms")
	run(t, []example{
		{name: "tester not proved before", does: boxDead("tester proved before=no").then(ohms), words: says("not proved dead")},
		{name: "tester not proved after", does: boxDead("tester proved after=no").then(ohms), words: says("not proved dead")},
		{name: "tester not asked after", does: boxDead("tester proved after=gone").then(ohms), words: says("not proved dead")},
		{name: "switch wire to earth left out", does: boxDead("diverter-switch-wire to diverter-earth=gone").then(ohms), words: says("not proved dead")},
		{name: "live to neutral left out", does: boxDead("diverter-live to diverter-neutral=gone").then(ohms), words: says("not proved dead")},
		{name: "neutral to earth left out", does: boxDead("diverter-neutral to diverter-earth=gone").then(ohms), words: says("not proved dead")},
		{name: "through the cover", does: script{hands("electrical"), do(journal.ActSwitchOff, "unit-isolator"), do(journal.ActLock, "unit-isolator"),
			form("diverter-box", boxLines)}, words: says("prove: the cover of diverter-box is on")},
	})
}

func TestCoverComesOffOnlyWithEverySupplyLocked(t *testing.T) {
	t.Parallel()
	unit := script{hands("electrical"), do(journal.ActSwitchOff, "unit-isolator"), do(journal.ActLock, "unit-isolator")}
	booster := script{do(journal.ActSwitchOff, "booster-isolator"), do(journal.ActLock, "booster-isolator")}
	spur := script{do(journal.ActSwitchOff, "controls-spur"), do(journal.ActLock, "controls-spur")}
	run(t, []example{
		{name: "one of two supplies", does: unit.then(do(journal.ActOpen, "control-enclosure")), words: says("booster not off and locked")},
		{name: "both", does: unit.then(booster...).then(do(journal.ActOpen, "control-enclosure"))},
		{name: "both isolators off and the heat call still live", plant: "millrace-spur",
			does: unit.then(booster...).then(do(journal.ActOpen, "control-enclosure")), words: says("controls not off and locked")},
		{name: "the spur too", plant: "millrace-spur", does: unit.then(spur...).then(do(journal.ActOpen, "control-enclosure"))},
		{name: "the incoming side of the isolator that is off", does: unit.then(do(journal.ActOpen, "unit-isolator-box")), words: says("unit not off and locked")},
		{name: "the device before it off", does: unit.then(do(journal.ActSwitchOff, "unit-breaker"), do(journal.ActLock, "unit-breaker"),
			do(journal.ActOpen, "unit-isolator-box"))},
		{name: "no mains behind it", does: script{hands("installer"), do(journal.ActOpen, "controller-base")}},
		{name: "the consumer unit", does: unit.then(do(journal.ActOpen, "consumer-unit")), words: says("a supply starts in", "not off and locked")},
		{name: "asked and not done", does: script{hands("electrical"), cannot(journal.ActOpen, "diverter-box")}, words: says("unit not off and locked")},
	})
}

func TestStandingCallMustBeMadeForAProof(t *testing.T) {
	t.Parallel()
	open := script{hands("electrical"), do(journal.ActSwitchOff, "unit-isolator"), do(journal.ActLock, "unit-isolator"),
		do(journal.ActSwitchOff, "controls-spur"), do(journal.ActLock, "controls-spur"), do(journal.ActOpen, "diverter-box")}
	run(t, []example{
		{name: "at rest a forgotten spur proves dead", plant: "millrace-spur", does: open.then(form("diverter-box", boxLines), read("winding", "ohms")),
			words: says("not proved dead")},
		{name: "called in the form", plant: "millrace-spur", does: open.then(form("diverter-box", "heat called\n"+boxLines), read("winding", "ohms"))},
		{name: "could not be called", plant: "millrace-spur", does: open.then(form("diverter-box", "heat called\n"+boxLines, "heat called=no"),
			read("winding", "ohms")), words: says("not proved dead")},
	})
}

// A board whose supply was left on keeps its outputs dead until somebody calls,
// but its controller is lit.
func TestScreenMustBeDarkWhereTheSupplyOfTheBoardComes(t *testing.T) {
	t.Parallel()
	ohms := read("winding", "ohms")
	without := strings.Replace(boxLines, "controller dark\n", "", 1)
	run(t, []example{
		{name: "dark", does: boxDead().then(ohms)},
		{name: "not asked", does: boxOpen().then(form("diverter-box", without), ohms), words: says("not proved dead")},
		{name: "everything called in its place", does: boxOpen().then(form("diverter-box", provoked+"\n"+without), ohms), words: says("not proved dead")},
		{name: "lit", does: boxDead("controller dark=no").then(ohms), words: says("with a voltage found in diverter-box", "not proved dead")},
		{name: "lit, then the breaker, proved again, hands in", does: boxDead("controller dark=no").then(do(journal.ActSwitchOff, "unit-breaker"),
			do(journal.ActLock, "unit-breaker"), form("diverter-box", boxLines), ohms)},
		{name: "lit is never repeated under load", does: boxDead("controller dark=no").then(form("diverter-box", "diverter-live to diverter-neutral loaded")),
			words: says("not the one repeat")},
	})
}

// A board that may keep its power moves what it switches only when it is called.
func TestOtherCallsMustBeMadeForAProofBesideASwitchedPoint(t *testing.T) {
	t.Parallel()
	shut := do(journal.ActClose, "booster-head")
	without := strings.Replace(headLines, provoked+"\n", "", 1)
	plain := smallBox(false)
	plain.Calls = []*trees.Call{{ID: "heat"}}
	const plainLines = "tester proved before\nin to back\nin to case\nback to case\nsense to back\nsense to case\ndata to back\ndata to case\ntester proved after"
	unplug := do(journal.ActUnplug, "plug")
	run(t, []example{
		{name: "not asked", does: headOpen().then(form("booster-head", without), shut), words: says("not proved dead")},
		{name: "neither called nor dark", does: headDead(provoked + "=no").then(shut), words: says("not proved dead")},
		{name: "one of them left out", does: headOpen().then(form("booster-head", "hot-water and booster called or dark\n"+without), shut), words: says("not proved dead")},
		{name: "called before and not for the proof", does: headOpen().then(do(journal.ActCall, "hot-water"), do(journal.ActCall, "booster"), do(journal.ActCall, "heat"),
			form("booster-head", without), shut), words: says("not proved dead")},
		{name: "all of them", does: headDead().then(shut)},
	})
	want(t, judgeBox(trees.NewPlant(*plain), form("drive", plainLines), unplug))
	plain.Points[2].Role = "switched"
	want(t, judgeBox(trees.NewPlant(*plain), form("drive", plainLines), unplug), "not proved dead")
	want(t, judgeBox(trees.NewPlant(*plain), form("drive", "heat called or dark\n"+plainLines), unplug))
}

// A plant at whose controller nothing is called has no screen to see.
func TestScreenIsForAPlantThatIsCalledAtIt(t *testing.T) {
	t.Parallel()
	const lines = "tester proved before\nheat called\nin to back\nin to case\nback to case\nsense to back\nsense to case\ndata to back\ndata to case\ntester proved after"
	unplug := do(journal.ActUnplug, "plug")
	for stands, words := range map[bool][]string{true: nil, false: {"not proved dead"}} {
		p := *smallBox(false)
		p.Calls = []*trees.Call{{ID: "heat", Stands: stands}}
		p.Parts = []*trees.Part{{ID: "board", Kind: "board", Terminals: map[string]string{"live": "in"}}}
		want(t, judgeBox(trees.NewPlant(p), form("drive", lines), unplug), words...)
	}
}

func TestQuestionIsJudgedWithoutBeingTakenIn(t *testing.T) {
	t.Parallel()
	f := embedded()["millrace-small"]
	m := monitor.New(f.plant, f.check, f.cause)
	for i, b := range boxOpen() {
		want(t, m.See(journal.Event{N: i + 1, Body: b}))
	}
	want(t, m.Asked(read("winding", "ohms")), "not proved dead")
	want(t, m.Asked(do(journal.ActUnlock, "unit-isolator")))
	want(t, m.Asked(look("reset-once")))
	want(t, m.See(journal.Event{N: 5, Body: form("diverter-box", boxLines)}))
	want(t, m.See(journal.Event{N: 6, Body: read("winding", "ohms")}))
	want(t, m.See(journal.Event{N: 7, Body: look("reset-once")}))
}

// TestJudgementThatPartsGoesOnByItself: after the cover is off one way proves the
// box dead and the other does not; what either does changes nothing for the other.
func TestJudgementThatPartsGoesOnByItself(t *testing.T) {
	t.Parallel()
	f := embedded()["millrace-small"]
	m := monitor.New(f.plant, f.check, f.cause)
	start := boxOpen()
	for i, b := range start {
		want(t, m.See(journal.Event{N: i + 1, Body: b}))
	}
	n := len(start) + 1
	other := m.Clone()
	want(t, m.See(journal.Event{N: n, Body: form("diverter-box", boxLines)}))
	want(t, m.See(journal.Event{N: n + 1, Body: read("winding", "ohms")}))
	want(t, m.See(journal.Event{N: n + 2, Body: look("reset-once")}))
	want(t, other.Asked(read("winding", "ohms")), "not proved dead")
	want(t, other.Asked(look("reset-once")))
	want(t, other.See(journal.Event{N: n, Body: do(journal.ActUnlock, "unit-isolator")}))
	want(t, other.See(journal.Event{N: n + 1, Body: do(journal.ActSwitchOn, "unit-isolator")}))
	want(t, m.Asked(read("winding", "ohms")))
	want(t, m.Asked(look("reset-once")), "once")
}
