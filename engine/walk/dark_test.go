package walk_test

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// at finds the line of a form whose text holds these words; -1: none.
func at(a *walk.Ask, words string) int {
	return slices.IndexFunc(a.Fields, func(f walk.Field) bool { return strings.Contains(f.Text, words) })
}

// A board whose supply was forgotten leaves its outputs dead until it is called,
// but its controller is lit: that is a find, and nobody calls anything to see it.
func TestLitScreenAtAProofIsAVoltageFound(t *testing.T) {
	t.Parallel()
	p := proving(t)
	a := p.job.Ask()
	n := at(a, "screen dark")
	if n != 2 || !strings.HasSuffix(a.Fields[n].Text, " Is the controller's screen dark? yes or no") || !a.Fields[n].Ends("no") || a.Fields[n].Ends("yes") {
		t.Fatalf("line %d asks for it: %+v", n+1, a.Fields[:3])
	}
	if !strings.Contains(p.body(), "a sleeping screen looks dark. Call nothing there.") || strings.Contains(p.body(), "boost") {
		t.Errorf("it says\n%s", p.body())
	}
	p.give(walk.Answer{Fields: append(zeros(a)[:n], "no")})
	if !strings.Contains(p.said[len(p.said)-1], "The controller's screen is lit: this is not dead. Hands out.") {
		t.Errorf("it is told %q", p.said[len(p.said)-1])
	}
	a = p.job.Ask()
	if a.ID != "voltage found" || a.Kind == walk.Fill || !strings.Contains(a.Title, "The screen is lit: hands out of the control enclosure") {
		t.Fatalf("it asks %s %q", a.ID, a.Title)
	}
	if !strings.Contains(p.body(), "It is not dead, whatever the tester says.") || !strings.Contains(a.Choices[0].Text, "this may feed it") {
		t.Errorf("it says %s\nand offers %+v", p.body(), a.Choices)
	}
	p.choose(a.Choices[0].ID).choose("done").choose("prove")
	p.give(walk.Answer{Fields: zeros(p.job.Ask())})
	if p.job.World().Found != nil || !p.job.World().Proved("control-enclosure") {
		t.Error("with more isolated and the screen dark it is not proved")
	}
}

func TestScreenLitASecondTimeIsReferred(t *testing.T) {
	t.Parallel()
	p := proving(t)
	lit := walk.Answer{Fields: []string{"yes", "yes", "no"}}
	p.give(lit)
	p.choose(p.job.Ask().Choices[0].ID).choose("done").choose("prove")
	p.give(lit)
	if got := offered(p.job.Ask().Choices); !slices.Equal(got, []string{"refer"}) {
		t.Errorf("it offers %v", got)
	}
}

// headProving plays to the proof of the immersion's head, to which the supply of
// the board does not come.
func headProving(t *testing.T) *player {
	t.Helper()
	p := play(t, with(engineer("millrace-volt-free", "cylinder-stays-cold"), map[string]string{"tap-against-screen": "both-cold", "hot-water-demand": "heating-water",
		"legs": "flow-only", "head-seat of cylinder-valve": "seated", "lever of cylinder-valve": "springs", "travel of cylinder-valve": "silent",
		"limit-wiring": "limit-half-only", "limit-ohms of high-limit": "OL"}))
	return p.untilAsk("the immersion's head", func(a *walk.Ask) bool { return a.ID == "prove" && at(a, "called at the controller") >= 0 })
}

// How the booster is called says that the tank is full (common practice, no source).
func TestProofSaysHowWhatTheControllerCallsIsMadeAndEnded(t *testing.T) {
	t.Parallel()
	p := headProving(t)
	a := p.job.Ask()
	n := at(a, "Hot water and the booster called at the controller, or its screen dark? yes or no")
	if n < 0 || n > at(a, "immersion neutral") && at(a, "immersion neutral") >= 0 || a.Fields[n].Ends("no") {
		t.Fatalf("line %d asks for them: %+v", n+1, a.Fields)
	}
	for _, words := range []string{"unless the screen is dark", "With the tank full, note how the booster is set", "start a hot-water boost at the controller",
		"Then wait 1 minute before the first pair. Withdraw them all again after the last line."} {
		if !strings.Contains(p.body(), words) {
			t.Errorf("it does not say %q:\n%s", words, p.body())
		}
	}
	if !slices.ContainsFunc(a.Cautions, func(c walk.Caution) bool { return c.ID == "water-round-the-element" }) {
		t.Errorf("nobody is warned of a dry element: %+v", a.Cautions)
	}
	fields := zeros(a)
	fields[n] = "no"
	if err := p.try(walk.Answer{Fields: fields}); err == nil || !strings.Contains(err.Error(), "hot water and the booster called") {
		t.Errorf("a no is answered %v", err)
	}
	p.give(walk.Answer{Fields: zeros(a)})
	if a := p.job.Ask(); a.ID == "prove" || a.ID == "voltage found" {
		t.Errorf("after a clean form it asks %s", a.ID)
	}
}

// Whether what was called for a proof stands is not known once it found volts.
func TestCallsOfAProofThatFoundVoltsAreWithdrawnFirst(t *testing.T) {
	t.Parallel()
	p := headProving(t)
	p.give(p.reads("231", "earth"))
	if a := p.job.Ask(); a.Kind == walk.Fill {
		p.give(walk.Answer{Fields: zeros(a)})
	}
	from := len(p.job.Events())
	p.choose(p.job.Ask().Choices[0].ID).choose("done")
	done := ""
	for _, e := range p.job.Events()[from:] {
		if b, ok := e.Body.(*journal.Acted); ok {
			done += b.Act.Do + " " + b.Act.On + ", "
		}
	}
	before, _, off := strings.Cut(done, "switch off")
	for _, want := range []string{"release hot-water, ", "release booster, ", "release heat, ", "wait "} {
		if !off || !strings.Contains(before, want) {
			t.Errorf("it has them do %s expected %sbefore anything is switched off", done, want)
		}
	}
}

// A dark screen has nothing to stop a boost at; a lit one has.
func TestADarkScreenIsNotToldToStopItsBoost(t *testing.T) {
	t.Parallel()
	for screen, want := range map[string]string{"dark": "See that the outdoor unit stands still", "restarts-when-called": "stop the boost at the controller"} {
		p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": screen}))
		p.until("acts")
		said := strings.Join(p.job.Ask().Body, "\n")
		if stop := strings.Contains(said, "stop the boost"); !strings.Contains(said, want) || stop == (screen == "dark") {
			t.Errorf("%s: %s", screen, said)
		}
		if screen == "dark" && strings.Count(said, "Has it come on since") != len(theHouse().plant["millrace-small"].Calls) {
			t.Errorf("nobody is told what to do if it has come on: %s", said)
		}
	}
}

// What a reset has people call runs until somebody stops it: the screen came back.
func TestWhatAResetCalledIsStoppedBeforeAnythingIsSwitchedOff(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "rcd-trips"), map[string]string{"tripped-which": "unit", "reset-once": "holds", "rcd-type": "right",
		"dry-outside": "wet"}))
	p.until("result").choose("repair leaked-once of unit-breaker at isolator-out-live parted unit-feed-neutral").until("acts")
	said := p.body()
	stop, off := strings.Index(said, "stop the boost at the controller"), strings.Index(said, "Switch off")
	if stop < 0 || strings.Contains(said, "a dark screen") || off >= 0 && off < stop {
		t.Errorf("with the plant put to work by the reset it says\n%s", said)
	}
	i := slices.IndexFunc(p.job.Events(), func(e journal.Event) bool { b, ok := e.Body.(*journal.Read); return ok && b.Check == "reset-once" })
	if b := p.job.Events()[i].Body.(*journal.Read); !slices.Equal(b.Called, []string{"heat", "hot-water", "booster"}) {
		t.Errorf("called for the reset: %v", b.Called)
	}
}

// What could have brought the screen back since it was seen dark makes it one at
// which something is withdrawn; what could not leaves it dark.
func TestScreenSeenDarkIsNotKnownToBeDarkOnceItCouldBeLit(t *testing.T) {
	t.Parallel()
	acted := func(do, on, outcome string) any {
		return &journal.Acted{Act: journal.Act{Do: do, On: on}, Outcome: outcome}
	}
	for _, x := range []struct {
		since any
		lit   bool
	}{
		{acted(journal.ActSwitchOn, "unit-isolator", journal.Done), true},
		{acted(journal.ActRefit, "controller", journal.Cannot), false},
		{acted(journal.ActRefit, "controller", journal.Done), true},
		{acted(journal.ActCall, "hot-water", journal.Done), true},
		{acted(journal.ActSwitchOff, "booster-isolator", journal.Done), false},
		{&journal.Read{Check: "reset-once", Purpose: journal.ForEarly, Answer: "holds"}, true},
		{&journal.Read{Check: "dry-outside", Purpose: journal.ForEarly, Answer: "dry"}, false},
	} {
		p := play(t, with(engineer("millrace-small", "fuse-blows"), map[string]string{"tripped-which": "nothing", "screen-lives": "dark"})).until("acts")
		p.job.Apply(journal.Event{N: len(p.job.Events()) + 1, Kind: journal.KindOf(x.since), Body: x.since})
		body := p.until("acts").body()
		if got := strings.Contains(body, "stop the boost at the controller"); got != x.lit || got == strings.Contains(body, "See that the outdoor unit stands still") {
			t.Errorf("after %+v it says\n%s", x.since, body)
		}
	}
}
