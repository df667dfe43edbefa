package walk_test

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// impossible says of an act in the list that stands that it could not be done.
func (p *player) impossible(words string) *player {
	p.t.Helper()
	p.choose("cannot")
	if p.job.Ask().ID != "which" {
		return p
	}
	for _, c := range p.job.Ask().Choices {
		if strings.Contains(c.Text, words) {
			return p.choose(c.ID)
		}
	}
	p.t.Fatalf("no act names %q%s", words, p.story())
	return p
}

func TestActThatCannotBeDoneTakesTheChecksBehindItAway(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), callouts[0].wrong))
	p.untilAsk("covers coming off", func(a *walk.Ask) bool { return strings.HasPrefix(a.Title, "Covers off") })
	p.impossible("the diverter's wiring box")
	if got := p.said[len(p.said)-1]; !strings.Contains(got, "What needed it is left out") {
		t.Errorf("it says %q", got)
	}
	p.until("beyond")
	if a := p.job.Ask(); !strings.Contains(p.body(), "could not be done before: open, the diverter's wiring box") || a.Check != "" {
		t.Errorf("it asks %q\n%s", a.Title, p.body())
	}
	from := len(p.asks)
	p.tell["beyond"] = "on => refer" // past the look inside, which has another way, to the neutral, which has none
	p.until("handover")
	for _, a := range p.asks[from:] {
		if c := p.job.Check(a.Check); c != nil && slices.Contains(c.Need.Enclosures, "diverter-box") {
			t.Errorf("it is still asked for %s", a.Title)
		}
	}
}

// What stands before the act that failed counts as done, and nothing after it.
func TestOnlyWhatStandsBeforeTheActThatFailedIsDone(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"}))
	p.untilAsk("isolating", func(a *walk.Ask) bool { return a.Title == "Isolate" })
	n := len(p.job.Ask().Body)
	p.impossible("Lock it off")
	var got []string
	for _, e := range p.job.Events() {
		if b, ok := e.Body.(*journal.Acted); ok && (b.Act.Do == journal.ActSwitchOff || b.Act.Do == journal.ActLock) {
			got = append(got, b.Act.Do+" "+b.Outcome)
		}
	}
	if n < 2 || !slices.Equal(got, []string{"switch off done", "lock cannot"}) {
		t.Errorf("of %d acts recorded %v", n, got)
	}
	// another device of the same supply is tried instead
	if a := p.job.Ask(); a.Title != "Isolate" {
		t.Errorf("it goes on with %q", a.Title)
	}
}

// Time can always be waited: who has none stops the job.
func TestWaitIsNotImpossible(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), map[string]string{"tap-against-screen": "both-cold"}))
	p.until("legs").resume()
	p.untilAsk("a wait", func(a *walk.Ask) bool { return a.ID == "acts" && strings.Contains(strings.Join(a.Body, " "), "Wait") })
	for _, c := range p.job.Ask().Choices {
		if c.ID != "cannot" {
			continue
		}
		p.choose("cannot")
		for _, c := range p.job.Ask().Choices {
			if strings.Contains(c.Text, "Wait") {
				t.Errorf("%q is offered as impossible", c.Text)
			}
		}
	}
}

// Other hands may be able to.
func TestOtherHandsMayDoWhatCouldNotBeDone(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), callouts[0].wrong))
	covers := func(a *walk.Ask) bool { return strings.HasPrefix(a.Title, "Covers off") }
	p.untilAsk("covers coming off", covers)
	p.impossible("the diverter's wiring box").until("beyond").choose("hands")
	p.untilAsk("covers coming off again", covers)
}
