package walk_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

func repaired(t *testing.T) *player {
	t.Helper()
	p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), callouts[0].wrong))
	return p.until("repair").choose("done")
}

func TestRepairStartsAnEpochWithoutOldEvidence(t *testing.T) {
	t.Parallel()
	p := repaired(t)
	if p.job.Epoch() != 1 {
		t.Errorf("the epoch is %d, expected 1", p.job.Epoch())
	}
	// the same check again: the reading before the repair is no evidence now
	if a := p.until("reading").job.Ask(); a.Check != "core-continuity of switch-wire" {
		t.Errorf("it asks for %s", a.Check)
	}
}

// The plant is walked again with what was read since the repair, and only that.
func TestFailedRetestWalksAgainWithReadingsOfThisEpochOnly(t *testing.T) {
	t.Parallel()
	p := repaired(t)
	p.tell["driven at diverter-switch-wire calling hot-water"] = "0.3"
	p.until("retest failed")
	if a := p.job.Ask(); !strings.HasPrefix(a.Title, "Not proven") || !slices.Equal(offered(a.Choices), []string{"again", "leave", "refer"}) {
		t.Fatalf("it asks %q %v", a.Title, offered(a.Choices))
	}
	p.choose("again")
	if a := p.job.Ask(); a.Check != "screen-lives" {
		t.Errorf("it begins with %s %q", a.ID, a.Title)
	}
	delete(p.tell, "driven at diverter-switch-wire calling hot-water")
	p.tell = with(p.tell, map[string]string{"tap-against-screen": "both-cold", "legs": "radiator-leg", "travel of diverter": "silent"})
	from := len(p.asks)
	p.until("result")
	for _, a := range p.asks[from:] {
		if a.Check == "driven at diverter-switch-wire calling hot-water" && a.Reading.As == "ln" {
			t.Error("what was read since the repair is read again")
		}
	}
	if got := p.read(journal.ForTree); strings.Count(got, "hot-water-settings") != 2 {
		t.Errorf("what was read before the repair still counts: %s", got)
	}
	if p.job.Epoch() != 1 {
		t.Errorf("walking again made epoch %d", p.job.Epoch())
	}
}

func TestProvenOnlyOnceWhatClearsTheSignPassed(t *testing.T) {
	t.Parallel()
	p := repaired(t)
	p.tell["cylinder-warms"] = "stays"
	p.until("retest failed")
	if !strings.Contains(p.body(), "failed") {
		t.Errorf("it says %s", p.body())
	}
	p.tell["retest failed"] = "leave"
	if p.run(); p.closed().As != journal.LeftSafe {
		t.Errorf("closed as %s, expected left safe", p.closed().As)
	}
}

// A retest that these hands cannot take proves nothing, and is no dead end.
func TestRetestOutOfReachLeavesTheJobUnproven(t *testing.T) {
	t.Parallel()
	p := repaired(t)
	p.until("reading").command("hand over", "")
	p.tell = with(p.tell, map[string]string{"hands": "householder", "hand over": "safe => yes"})
	p.until("retest failed")
	if !strings.Contains(p.body(), "not possible") {
		t.Errorf("it says %s", p.body())
	}
	p.tell["retest failed"] = "leave"
	p.run()
	if c := p.closed(); c.As == journal.Proven || len(p.job.Exposed()) > 0 && !strings.Contains(c.Words, "left open") {
		t.Errorf("closed %+v, exposed %v", c, p.job.Exposed())
	}
}

func TestProvenIsTakenBackWhereTheHandoverIsNot(t *testing.T) {
	t.Parallel()
	p := repaired(t).until("handover")
	if !strings.Contains(p.job.Ask().Title, journal.Proven) || !strings.Contains(p.body(), "Tell the customer") {
		t.Errorf("%q\n%s", p.job.Ask().Title, p.body())
	}
	if p.choose("not"); p.closed().As != journal.LeftSafe {
		t.Errorf("closed as %s", p.closed().As)
	}
}

// However a job ends, no mains enclosure is left open with power on.
func TestNoEndLeavesAnEnclosureOpenWithPowerOn(t *testing.T) {
	t.Parallel()
	ends := map[string]func(p *player) string{
		journal.LeftSafe:  func(p *player) string { p.until("result").choose("leave"); return journal.LeftSafe },
		journal.Referred:  func(p *player) string { p.until("result").choose("refer"); return journal.Referred },
		journal.Abandoned: func(p *player) string { p.until("reading").command("give up", "called away"); return journal.Abandoned },
	}
	for name, end := range ends {
		for _, leave := range []string{"back", "isolated"} {
			t.Run(name+" "+leave, func(t *testing.T) {
				t.Parallel()
				p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), callouts[0].wrong))
				want := end(p)
				p.tell["leave"] = leave
				p.run()
				c, w := p.closed(), p.job.World()
				if c.As != want || len(p.job.Exposed()) > 0 || strings.Contains(c.Words, "left open") {
					t.Errorf("closed %+v, exposed %v", c, p.job.Exposed())
				}
				for id, e := range w.Enclosures {
					if e.Open != 0 {
						t.Errorf("%s is left open", id)
					}
				}
				if locked := len(w.Locked()) > 0; locked != (leave == "isolated") {
					t.Errorf("left %s with %v locked", leave, w.Locked())
				}
			})
		}
	}
}

// Where the hands that are left cannot close what stands open, it is recorded,
// and the job is passed on rather than called safe.
func TestWhatCannotBeClosedIsRecorded(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"}))
	p.until("reading").command("hand over", "")
	p.tell["hands"] = "householder"
	p.until("left open").choose("refer").run()
	if c := p.closed(); c.As != journal.Referred || !strings.Contains(c.Words, "left open with power on: ") || !strings.Contains(c.Words, "the control enclosure") {
		t.Errorf("closed %+v", c)
	}
	for _, a := range p.asks {
		if strings.HasPrefix(a.Title, "Covers on") {
			t.Error("a householder is asked to put a cover on")
		}
	}
}

// A job called safe has nothing live in reach.
func TestLeavingIsNoSafeEndWithLivePartsInReach(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark", "pair-volts from pair-a to pair-b": "-12"}))
	p.tell["confirm"] = "without"
	p.until("result").choose("leave").choose("isolated")
	for p.job.Ask().ID == "acts" { // nothing can be switched off or locked
		if slices.Contains(offered(p.job.Ask().Choices), "cannot") {
			p.impossible("")
		} else {
			p.choose("done")
		}
	}
	p.run()
	if c := p.closed(); c.As != journal.Referred || c.To == "" || !strings.Contains(c.Words, "left open with power on") {
		t.Errorf("closed %+v", c)
	}
}

// Cleared, but not put back: not proven, and left isolated.
func TestJobThatCannotBePutBackIsNotProven(t *testing.T) {
	t.Parallel()
	p := repaired(t)
	p.tell["cylinder-warms"] = "rises"
	p.until("cylinder-warms").give(walk.Answer{Choice: "rises"})
	p.until("acts").impossible("") // what was called cannot be withdrawn
	if a := p.until("handover").job.Ask(); strings.Contains(a.Title, journal.Proven) {
		t.Errorf("it is to be closed as %q", a.Title)
	}
	if p.run(); p.closed().As != journal.LeftSafe {
		t.Errorf("closed as %s", p.closed().As)
	}
}

// What cannot be put back is left isolated instead.
func TestPlantThatCannotBePutBackIsLeftIsolated(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "no-heat-demand"), callouts[6].wrong)).until("result").choose("leave").choose("back")
	p.untilAsk("power coming back", func(a *walk.Ask) bool { return strings.HasPrefix(a.Title, "Power back") })
	p.impossible("Switch on").run()
	if c := p.closed(); c.As != journal.LeftSafe || len(p.job.World().Locked()) < 2 || len(p.job.Exposed()) > 0 {
		t.Errorf("closed %+v, locked %v", c, p.job.World().Locked())
	}
}

func TestClosedJobTakesNothingMore(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "no-heat-demand"), map[string]string{"danger": "burning"})).run()
	for _, ans := range []walk.Answer{{Choice: "read"}, {Command: "note", Rest: "more"}, {Command: "back"}} {
		if err := p.try(ans); err == nil {
			t.Errorf("%+v is taken", ans)
		}
	}
}

// Hands that open nothing are asked how it is left in plain words, and not for
// covers and locks.
func TestPlainHandsAreAskedHowItIsLeftInPlainWords(t *testing.T) {
	t.Parallel()
	p := play(t, with(plainHands("householder", "phone"), map[string]string{"plant": "millrace-small", "symptom": "no-heat-demand"})).until("look")
	for p.job.Ask().ID != "acts" {
		p.give(p.answer(p.job.Ask()))
	}
	p.choose("done").command("give up", "called away").until("leave")
	if text := everyWord(p.job); !strings.Contains(text, "Say: “") || strings.Contains(text, "covers on") || strings.Contains(text, "locked") {
		t.Errorf("it asks\n%s", text)
	}
	if p.until("handover"); !strings.Contains(p.body(), "Say: “") {
		t.Errorf("at the closing it says\n%s", p.body())
	}
}

func TestPowerComingBackWithEverythingShutSpeaksOfNothingOpen(t *testing.T) {
	t.Parallel()
	p := board(t).command("give up", "called away").choose("back")
	p.untilAsk("power coming back", func(a *walk.Ask) bool { return strings.HasPrefix(a.Title, "Power back") })
	if got := p.job.Ask().Title; got != "Power back" {
		t.Errorf("it is titled %q", got)
	}
}

// An hour of heating is not watched beside open terminals.
func TestARetestThatTakesLongIsWatchedWithTheCoversOn(t *testing.T) {
	t.Parallel()
	for _, c := range callouts {
		if c.name != "a high-limit has drifted" {
			continue
		}
		p := play(t, with(engineer(c.plant, c.symptom), maps.Clone(c.wrong)))
		p.untilAsk("the full heat", func(a *walk.Ask) bool { return a.Check == "heats-to-target" })
		if open := p.job.Exposed(); len(open) > 0 {
			t.Errorf("it is watched with this left: %v", open)
		}
		return
	}
	t.Fatal("no callout retests by a full heat")
}
