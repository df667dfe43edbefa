package monitor_test

import (
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/monitor"
	"faultwalk/trees"
)

func TestLoadedReadingIsLiveToNeutralOfOneGroup(t *testing.T) {
	t.Parallel()
	run(t, []example{
		{name: "low impedance to neutral", does: boxLive().then(read("within a group", "low impedance"))},
		{name: "low impedance to earth", does: boxLive().then(read("to earth", "low impedance")), words: says("to earth or a case")},
		{name: "load button to earth", does: boxLive().then(read("to earth", "two-pole loaded")), words: says("to earth or a case")},
		{name: "high impedance to earth", does: boxLive().then(read("to earth", "high impedance"))},
		{name: "across two groups", plant: "millrace-spur", does: boardOpen("unit-isolator", "controls-spur").then(read("the heat call", "low impedance")), words: says("not of one RCD group")},
		{name: "across two groups on high impedance", plant: "millrace-spur", does: boardOpen("unit-isolator", "controls-spur").then(read("the heat call", "high impedance"))},
		{name: "one group where the board feeds the receiver", plant: "millrace-large", does: boardOpen("unit-isolator").then(read("the heat call", "low impedance"))},
		{name: "load button to earth while proving", does: boxOpen().then(form("diverter-box", boxLines+"\ndiverter-live to diverter-earth loaded")),
			words: says("to earth or a case")},
		{name: "load button to neutral while proving", does: boxOpen().then(form("diverter-box", boxLines+"\ndiverter-live to diverter-neutral loaded"))},
	})
}

// boardOpen opens the control enclosure with these devices locked off.
func boardOpen(devices ...string) script {
	s := script{hands("electrical")}
	for _, d := range devices {
		s = s.then(do(journal.ActSwitchOff, d), do(journal.ActLock, d))
	}
	return s.then(do(journal.ActOpen, "control-enclosure"))
}

func TestLiveReadingIsForElectricalHandsBehindAnOpenCover(t *testing.T) {
	t.Parallel()
	supervised := &journal.Handed{Hands: journal.Hands{Kind: "apprentice", Supervisor: "the senior engineer"}}
	phone := &journal.Handed{Hands: journal.Hands{Kind: "electrical", Phone: true}}
	live := read("within a group", "high impedance")
	run(t, []example{
		{name: "electrical", does: boxLive().then(live)},
		{name: "electrical by phone", does: boxLive().then(phone, live)},
		{name: "apprentice alone", does: boxLive().then(hands("apprentice"), live), words: says("apprentice without a supervisor")},
		{name: "apprentice supervised", does: boxLive().then(supervised, live)},
		{name: "installer", does: boxLive().then(hands("installer"), live), words: says("by installer hands")},
		{name: "through the cover", does: boxDead().then(do(journal.ActClose, "diverter-box"), live), words: says("cover of diverter-box is on")},
		{name: "in the consumer unit", does: script{hands("electrical"), read("the unit's bar", "high impedance")}, words: says("cover of consumer-unit is on")},
		{name: "given early", does: script{hands("electrical"), early("within a group")}},
		{name: "extra-low volts by an installer", does: script{hands("installer"), do(journal.ActOpen, "controller-base"),
			read("pair-volts from controller-a to controller-b", "dc volts")}, words: says("by installer hands")},
	})
}

func TestCoversLocksAndProofsAreNotForEveryHand(t *testing.T) {
	t.Parallel()
	ready := boxDead()
	run(t, []example{
		{name: "householder switches off", does: script{hands("householder"), do(journal.ActSwitchOff, "unit-isolator")}},
		{name: "householder locks", does: script{hands("householder"), do(journal.ActLock, "unit-isolator")}, words: says("by householder hands")},
		{name: "householder takes any cover off", does: script{hands("householder"), do(journal.ActOpen, "controller-base")}, words: says("by householder hands")},
		{name: "installer unlocks", does: ready.then(hands("installer"), do(journal.ActUnlock, "unit-isolator")), words: says("by installer hands")},
		{name: "installer proves", does: ready.then(hands("installer"), form("diverter-box", boxLines)), words: says("by installer hands")},
		{name: "apprentice alone opens", does: script{hands("electrical"), do(journal.ActSwitchOff, "unit-isolator"), hands("apprentice"),
			do(journal.ActOpen, "diverter-box")}, words: says("apprentice without", "unit not off and locked")},
		{name: "nobody named", does: script{do(journal.ActLock, "unit-isolator")}, words: says("hands that nobody named")},
		{name: "installer parts a mains plug", does: ready.then(hands("installer"), do(journal.ActUnplug, "diverter")),
			words: says("by installer hands", "reached by unit", "not proved dead")},
	})
}

func TestASwitchIsNotWorkedWithItsOwnCoverOff(t *testing.T) {
	t.Parallel()
	open := script{hands("electrical"), do(journal.ActSwitchOff, "unit-breaker"), do(journal.ActLock, "unit-breaker"), do(journal.ActOpen, "unit-isolator-box")}
	live := open.then(do(journal.ActUnlock, "unit-breaker"), do(journal.ActSwitchOn, "unit-breaker"))
	run(t, []example{
		{name: "off", does: live.then(do(journal.ActSwitchOff, "unit-isolator")), words: says("cover of unit-isolator-box off")},
		{name: "locked, though the breaker is off, because nothing is proved", does: open.then(do(journal.ActLock, "unit-isolator")), words: says("cover of unit-isolator-box off")},
		{name: "the breaker before it", does: live.then(do(journal.ActSwitchOff, "unit-breaker"))},
	})
}

func TestFoundVoltageHalts(t *testing.T) {
	t.Parallel()
	const pair = "diverter-live to diverter-neutral"
	found := boxDead(pair + "=118")
	repeat := form("diverter-box", pair+" loaded")
	breaker := script{do(journal.ActSwitchOff, "unit-breaker"), do(journal.ActLock, "unit-breaker")}
	again := form("diverter-box", boxLines)
	run(t, []example{
		{name: "hands in", does: found.then(read("winding", "ohms")), words: says("with a voltage found", "not proved dead")},
		{name: "another cover", does: found.then(do(journal.ActOpen, "limit-box")), words: says("with a voltage found in diverter-box")},
		{name: "power back", does: found.then(do(journal.ActUnlock, "unit-isolator")), words: says("with a voltage found in diverter-box")},
		{name: "repaired", does: found.then(&journal.Repaired{Cause: "setting of clock"}), words: says("with a voltage found in diverter-box")},
		{name: "one repeat, isolated, proved, hands in", does: found.then(repeat).then(breaker...).then(again, read("winding", "ohms"))},
		{name: "two repeats", does: found.then(repeat, repeat), words: says("not the one repeat")},
		{name: "a repeat of another pair", does: found.then(form("diverter-box", "diverter-switch-wire to diverter-neutral loaded")), words: says("not the one repeat")},
		{name: "a repeat without the load", does: found.then(form("diverter-box", pair)), words: says("not the one repeat")},
		{name: "only a ghost, carry on", does: found.then(repeat, read("winding", "ohms")), words: says("with a voltage found", "not proved dead")},
		{name: "proved again with nothing more locked off", does: found.then(again, do(journal.ActUnplug, "diverter")), words: says("with a voltage found")},
		{name: "found in a value, whatever the outcome says", does: boxOpen().then(done(form("diverter-box", boxLines, pair+"=118")), do(journal.ActUnplug, "diverter")),
			words: says("with a voltage found", "not proved dead")},
		{name: "demand dropped before the breaker", does: found.then(do(journal.ActRelease, "hot-water"), wait(3)).then(breaker...)},
		{name: "a second find, then closed", does: found.then(breaker...).then(form("diverter-box", boxLines, pair+"=118"), &journal.Closed{As: journal.Referred})},
		{name: "a second find, then anything", does: found.then(breaker...).then(form("diverter-box", boxLines, pair+"=118"), again, do(journal.ActLock, "booster-isolator")),
			words: says("second time", "second time")},
		{name: "back takes the find from the mind only", does: found.then(&journal.Retracted{Event: 5}, do(journal.ActUnplug, "diverter")),
			words: says("with a voltage found", "not proved dead")},
	})
}

func done(a *journal.Acted) *journal.Acted {
	a.Outcome = journal.Done
	return a
}

func TestSwitchingOffUnderLoad(t *testing.T) {
	t.Parallel()
	called := script{hands("electrical"), do(journal.ActCall, "hot-water")}
	off := do(journal.ActSwitchOff, "unit-isolator")
	boostersOwn := script{form("booster-head", "heat called\nhot-water and booster called or dark\n"+strings.Replace(headLines, provoked, "", 1)),
		cannot(journal.ActRelease, "heat"), do(journal.ActSwitchOff, "immersion-switch")}
	run(t, []example{
		{name: "the call stands", does: called.then(off), words: says("the call for hot-water stands")},
		{name: "released and waited out", does: called.then(do(journal.ActRelease, "hot-water"), wait(3), off)},
		{name: "released a moment ago", does: called.then(do(journal.ActRelease, "hot-water"), wait(1), off), words: says("needs 3 minutes")},
		{name: "the release could not be done", does: called.then(cannot(journal.ActRelease, "hot-water"), off)},
		{name: "another release could not be done", does: called.then(cannot(journal.ActRelease, "heat"), off), words: says("the call for hot-water stands")},
		{name: "called again after that", does: called.then(cannot(journal.ActRelease, "hot-water"), do(journal.ActCall, "hot-water"), off), words: says("stands")},
		{name: "other hands did not try", does: called.then(cannot(journal.ActRelease, "hot-water"), hands("electrical"), off), words: says("stands")},
		{name: "released and nobody could wait", does: called.then(do(journal.ActRelease, "hot-water"), cannot(journal.ActWait, "hot-water"), off)},
		{name: "released before the job was handed over, and not again", does: called.then(do(journal.ActRelease, "hot-water"), wait(3), hands("electrical"),
			cannot(journal.ActRelease, "hot-water"), off), words: says("needs 3 minutes to stop, 0 were waited")},
		{name: "released before the job was handed over, not again, waited out", does: called.then(do(journal.ActRelease, "hot-water"), hands("electrical"),
			cannot(journal.ActRelease, "hot-water"), wait(3), off)},
		{name: "released, and once more in vain", does: called.then(do(journal.ActRelease, "hot-water"), cannot(journal.ActRelease, "hot-water"), off),
			words: says("needs 3 minutes")},
		{name: "released in vain, called later, never released", does: script{hands("electrical"), cannot(journal.ActRelease, "hot-water"),
			do(journal.ActCall, "hot-water"), off}, words: says("the call for hot-water stands")},
		{name: "called for a reset", does: script{hands("electrical"), look("reset-once"), off}, words: says("the call for hot-water stands", "the call for booster stands", "the call for heat stands")},
		{name: "called for a reset, withdrawn and waited out", does: script{hands("electrical"), early("reset-once"), do(journal.ActRelease, "hot-water"),
			do(journal.ActRelease, "booster"), do(journal.ActRelease, "heat"), wait(3), off}},
		{name: "the release taken back in the mind", does: called.then(do(journal.ActRelease, "hot-water"), wait(3), &journal.Retracted{Event: 3}, off)},
		{name: "the call taken back in the mind", does: called.then(&journal.Retracted{Event: 2}, off), words: says("stands")},
		{name: "its supply is off already", does: boxOpen().then(do(journal.ActCall, "heat"), do(journal.ActSwitchOff, "unit-breaker"))},
		{name: "proved with a call that nobody can withdraw", plant: "millrace-spur", does: boardOpen("unit-isolator", "controls-spur").
			then(do(journal.ActCall, "heat"), cannot(journal.ActRelease, "heat"), form("control-enclosure", "heat called"), do(journal.ActSwitchOff, "booster-isolator"))},
		{name: "called while proving", plant: "millrace-spur", does: boardOpen("unit-isolator", "controls-spur").
			then(form("control-enclosure", "heat called"), do(journal.ActSwitchOff, "booster-isolator")), words: says("the call for heat stands")},
		{name: "called for a proof alone and withdrawn after it", does: headDead().then(off),
			words: says("hot-water was released and needs 3 minutes to stop, 0 were waited", "booster was released", "heat was released")},
		{name: "called for a proof alone, withdrawn and waited out", does: headDead().then(wait(3), off)},
		{name: "called for a proof alone, withdrawn and waited for too short", does: headDead().then(wait(2), off), words: says("hot-water was released", "heat was released")},
		{name: "called for a proof, and before it too", does: script{hands("electrical"), do(journal.ActCall, "heat")}.then(headDead()[1:]...).then(wait(3), off),
			words: says("the call for heat stands", "the call for heat stands")},
		{name: "called for a proof, and before it by a call that nobody can withdraw", does: script{hands("electrical"), do(journal.ActCall, "hot-water"),
			cannot(journal.ActRelease, "hot-water")}.then(headDead()[1:]...).then(wait(1), do(journal.ActRelease, "heat"), off), words: says("heat was released")},
		{name: "another supply, with the board in power", plant: "millrace-volt-free", does: headOpen().then(boostersOwn...),
			words: says("hot-water was released", "booster was released")},
		{name: "not called, for the board has no power", plant: "millrace-volt-free", does: boxOpen().then(headOpen()[1:]...).then(boostersOwn...)},
		{name: "called for a proof alone that found volts", does: headDead("booster-live to booster-neutral=118").then(off),
			words: says("stands", "stands", "stands")},
		{name: "that found volts, withdrawn and waited out", does: headDead("booster-live to booster-neutral=118").then(do(journal.ActRelease, "hot-water"),
			do(journal.ActRelease, "heat"), do(journal.ActRelease, "booster"), wait(3), off)},
	})
}

func early(check string) *journal.Read {
	return &journal.Read{Check: check, Purpose: journal.ForEarly, Answer: "holds"}
}

func TestOnceIsOnce(t *testing.T) {
	t.Parallel()
	run(t, []example{
		{name: "a reset pressed twice", does: script{hands("householder"), look("reset-once"), look("reset-once")}, words: says("a second time")},
		{name: "pressed, taken back, pressed", does: script{hands("householder"), look("reset-once"), &journal.Retracted{Event: 2}, look("reset-once")},
			words: says("a second time")},
		{name: "pressed before it was asked for, then asked for", does: script{hands("householder"), early("reset-once"), look("reset-once")}, words: says("a second time")},
		{name: "told twice and never asked for", does: script{hands("householder"), early("reset-once"), early("reset-once")}},
		{name: "another check twice", does: script{hands("householder"), look("screen-lives"), look("screen-lives")}},
	})
}

func TestNothingIsDoneToAClosedJob(t *testing.T) {
	t.Parallel()
	over := script{hands("electrical"), &journal.Closed{As: journal.Referred}}
	run(t, []example{
		{name: "a reading", does: over.then(look("screen-lives")), words: says("after the job was closed")},
		{name: "an act", does: over.then(do(journal.ActCall, "heat")), words: says("after the job was closed")},
		{name: "a remark", does: over.then(&journal.Noted{Text: "thanked"})},
		{name: "proven with a cover off", does: boxLive().then(&journal.Closed{As: journal.Proven}), words: says("cover of diverter-box is off")},
		{name: "left safe with a cover off and locked", does: boxDead().then(&journal.Closed{As: journal.LeftSafe})},
		{name: "left safe with a cover off and live", does: boxLive().then(&journal.Closed{As: journal.LeftSafe}), words: says("cover of diverter-box is off")},
	})
}

// smallBox is one supply, a switch in it, and a box with a low-voltage input
// behind a load, so that mains could come to it.
func smallBox(sealed bool) *trees.Plant {
	return trees.NewPlant(trees.Plant{
		Supplies:   []*trees.Supply{{ID: "unit", RCD: "r", Live: "l", Neutral: "n"}},
		Devices:    []*trees.Device{{ID: "switch", Supply: "unit", Poles: 2, Lockable: true}},
		Enclosures: []*trees.Enclosure{{ID: "drive", Sealed: sealed}},
		Points: []*trees.Point{{ID: "l"}, {ID: "n"}, {ID: "in", In: "drive", Role: "live"}, {ID: "back", In: "drive", Role: "neutral"},
			{ID: "case", In: "drive", Role: "earth"}, {ID: "sense", In: "drive", Role: "elv"}, {ID: "data", In: "drive", Role: "elv"}},
		Plugs: []*trees.Plug{{ID: "plug", In: "drive"}},
		Links: []*trees.Link{{ID: "switch.1", Kind: trees.LinkPole, Of: "switch", From: "l", To: "in"},
			{ID: "switch.2", Kind: trees.LinkPole, Of: "switch", From: "n", To: "back"}, {ID: "input", Kind: trees.LinkLoad, From: "in", To: "sense"}},
	})
}

func judgeBox(p *trees.Plant, bodies ...any) []monitor.Finding {
	var events []journal.Event
	for i, b := range append(script{hands("electrical"), do(journal.ActSwitchOff, "switch"), do(journal.ActLock, "switch"), do(journal.ActOpen, "drive")}, bodies...) {
		events = append(events, journal.Event{N: i + 1, Body: b})
	}
	return monitor.Judge(p, nil, nil, events)
}

func TestSealedCoverStaysOn(t *testing.T) {
	t.Parallel()
	want(t, judgeBox(smallBox(true)), "drive is sealed")
	want(t, judgeBox(smallBox(false)))
}

func TestLowVoltagePointIsProvedToNeutralAndToEarth(t *testing.T) {
	t.Parallel()
	const lines = "tester proved before\nin to back\nin to case\nback to case\nsense to back\nsense to case\ndata to back\ndata to case\ntester proved after"
	unplug := do(journal.ActUnplug, "plug")
	want(t, judgeBox(smallBox(false), form("drive", lines), unplug))
	for _, left := range []string{"sense to back", "sense to case", "data to back", "data to case"} {
		want(t, judgeBox(smallBox(false), form("drive", lines, left+"=gone"), unplug), "not proved dead")
	}
}
