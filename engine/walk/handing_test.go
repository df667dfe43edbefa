package walk_test

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// atOpenBox plays to a live reading in the control enclosure, cover off.
func atOpenBox(t *testing.T) *player {
	t.Helper()
	return play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"})).until("reading")
}

func TestSupervisorIsAskedForByYesOrNoAndThenByName(t *testing.T) {
	t.Parallel()
	says := with(engineer("millrace-small", "controller-blank"), map[string]string{"hands": "apprentice"})
	p := play(t, says).until("watched")
	if a := p.job.Ask(); a.Kind != walk.Choose || a.Title != "Is an electrically competent person there who watches?" {
		t.Errorf("it asks %q", a.Title)
	}
	p.choose("yes")
	for _, no := range []string{"", "no", "No one", "nobody", "yes", "yes he is", "n/a", "N.A.", "12", "3", "...", "-", "x", "J", "all", "none", "me", "electrical", "two-pole", "unknown", "Bob 2"} {
		p.refused(walk.Answer{Typed: no}, "is no name")
	}
	p.typed("J. O'Neil-Noble").until("instruments")
	p = play(t, says).until("watched").choose("no")
	if a := p.job.Ask(); a.ID != "instruments" {
		t.Errorf("with nobody watching it asks %s", a.ID)
	}
	p.until("told")
	for _, e := range p.job.Events() {
		if b, ok := e.Body.(*journal.Handed); ok && b.Hands.Supervisor != "" {
			t.Errorf("nobody watches, and the supervisor is %q", b.Hands.Supervisor)
		}
	}
}

// Before the hands change it is said what stands open and whether power is on
// there, and the present hands may close up.
func TestChangeOfHandsSaysFirstWhatStandsOpen(t *testing.T) {
	t.Parallel()
	p := atOpenBox(t).command("hand over", "")
	if a := p.job.Ask(); a.ID != "hand over" || !strings.Contains(p.body(), "Open: the control enclosure, power is on there.") ||
		!slices.Equal(offered(a.Choices), []string{"back", "safe", "yes", "stay"}) {
		t.Errorf("it asks %s %v\n%s", a.ID, offered(a.Choices), p.body())
	}
	if p.choose("stay"); p.job.Ask().ID != "reading" {
		t.Errorf("with the same hands it asks %s", p.job.Ask().ID)
	}
	p = play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"})).until("prove").command("hand over", "")
	for _, want := range []string{"Open: the control enclosure, off and locked, not proved dead.", "Off: ", "Locks on: "} {
		if !strings.Contains(p.body(), want) {
			t.Errorf("nothing says %q:\n%s", want, p.body())
		}
	}
	if p := play(t, engineer("millrace-small", "no-heat-demand")).until("look").command("hand over", ""); p.job.Ask().ID != "operator" {
		t.Errorf("with nothing touched it asks %s", p.job.Ask().ID)
	}
}

func TestPresentHandsCloseUpBeforeOthersTakeOver(t *testing.T) {
	t.Parallel()
	for _, way := range []string{"back", "safe"} {
		p := atOpenBox(t).command("hand over", "").choose(way)
		p.tell["hand over"], p.tell["hands"] = "yes", "householder"
		p.until("operator")
		for id, e := range p.job.World().Enclosures {
			if e.Open != 0 {
				t.Errorf("%s: %s is open when others take over", way, id)
			}
		}
		if locked := len(p.job.World().Locked()) > 0; locked != (way == "safe") {
			t.Errorf("%s: locked %v", way, p.job.World().Locked())
		}
		p.until("beyond")
	}
}

// Hands that may not work at what stands open are stopped before anything else,
// with words to say, and are asked to do nothing to the plant.
func TestHandsThatMayNotCloseAreStoppedAtOnce(t *testing.T) {
	t.Parallel()
	for _, kind := range []string{"householder", "installer"} {
		for _, operator := range []string{"here", "phone"} {
			p := atOpenBox(t).command("hand over", "").choose("yes")
			p.tell = with(p.tell, map[string]string{"hands": kind, "operator": operator, "certificates": "none"})
			p.until("left open")
			a, from := p.job.Ask(), len(p.asks)
			if a.Title != "Stop: mains terminals stand open in the control enclosure" || !a.Urgent || !slices.Equal(offered(a.Choices), []string{"refer", "hands"}) {
				t.Errorf("it asks %q %v", a.Title, offered(a.Choices))
			}
			for _, want := range []string{"Keep everybody away", "Touch nothing and switch nothing on", "power is on there"} {
				if !strings.Contains(p.body(), want) {
					t.Errorf("nothing says %q:\n%s", want, p.body())
				}
			}
			p.choose("refer").run()
			for _, a := range p.asks[from:] {
				if a.ID == "acts" || a.ID == "prove" || a.ID == "leave" {
					t.Errorf("the %s is asked: %s", kind, a.Title)
				}
			}
			if c := p.closed(); c.As != journal.Referred || !strings.Contains(c.Words, "left open with power on: the control enclosure") {
				t.Errorf("closed %+v", c)
			}
		}
	}
}

// A device that was off before the hands changed is not "power on".
func TestWhatIsOffThoughNotSeenSinceIsNotCalledPowerOn(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"})).until("prove").command("hand over", "").choose("yes")
	p.tell["hands"] = "householder"
	p.until("left open").choose("refer").run()
	if c := p.closed(); !strings.Contains(c.Words, "off but not locked for certain: the control enclosure") || strings.Contains(c.Words, "power on") {
		t.Errorf("closed %+v", c)
	}
}

// Competent hands that take over open boxes go on, their predecessor's locks to be seen again.
func TestCompetentHandsTakeOverOpenBoxes(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"})).until("prove").command("hand over", "").choose("yes")
	if a := p.until("acts").job.Ask(); !strings.Contains(p.body(), "still off") {
		t.Errorf("it asks %q\n%s", a.Title, p.body())
	}
}
