package walk_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
)

// edge plays to the spur plant's heat call read with it released, and gives the
// very volts that part dead from unproved there: with the meter's error they lie
// on both sides.
func edge(t *testing.T) *player {
	t.Helper()
	p := play(t, with(engineer("millrace-spur", "no-heat-demand"), map[string]string{"demand-shows": "none"}))
	return p.until("falls at heat-call calling heat").typedAtEdge()
}

// typedAtEdge gives the reading that parts the first row of the table from the next.
func (p *player) typedAtEdge() *player {
	p.t.Helper()
	r := p.job.Ask().Reading
	if r == nil || len(r.Ranges) < 2 {
		p.t.Fatalf("no table of two rows stands%s", p.story())
	}
	return p.typed(fmt.Sprint(r.Ranges[0].Owned.Hi))
}

func TestReadingAcrossAnEdgeIsTakenAgainOnce(t *testing.T) {
	t.Parallel()
	p := edge(t)
	a := p.job.Ask()
	if a.ID != "again" || !strings.Contains(p.body(), "comes and goes with the call") || !strings.Contains(p.body(), "stands without the call") {
		t.Fatalf("it asks %s %q\n%s", a.ID, a.Title, p.body())
	}
	if got := offered(a.Choices); !slices.Equal(got, []string{"again", "other", "leave"}) {
		t.Errorf("it offers %v", got)
	}
	p.choose("other")
	if r := p.job.Ask().Reading; r == nil || r.Mode != "two-pole unloaded" {
		t.Fatalf("the other instrument is not asked for%s", p.story())
	}
	p.typedAtEdge() // ±(3 % + 5 counts): no better
	if a := p.job.Ask(); a.ID == "again" {
		t.Fatal("it is to be taken a third time")
	}
	if !strings.Contains(p.job.Ask().Title, "the reading does not decide, not even measured again") {
		t.Errorf("it is not said that it was left out%s", p.story())
	}
	if !strings.Contains(p.body(), "Still possible: ") {
		t.Errorf("what is still possible is not said: %s", p.body())
	}
}

func TestSecondReadingThatDecidesLeadsOn(t *testing.T) {
	t.Parallel()
	p := edge(t).choose("again").typed("0.3")
	if a := p.job.Ask(); a.ID == "again" || a.ID == "referral" {
		t.Errorf("after 0.3 V it asks %s %q", a.ID, a.Title)
	}
	last := lastRead(p)
	if last.Purpose != journal.ForAgain || last.Leads == "" {
		t.Errorf("the second reading is recorded as %s, leading to %q", last.Purpose, last.Leads)
	}
}

func TestUndecidedReadingMayBeLeft(t *testing.T) {
	t.Parallel()
	p := edge(t).choose("leave")
	if a := p.job.Ask(); a.ID != "referral" || !strings.Contains(a.Title, "the reading does not decide") {
		t.Errorf("it asks %s %q", a.ID, a.Title)
	}
}

// 5 V ±(1 % + 3 counts) to earth may be nothing, or a pair that floats: either way
// the pair is read across next.
func TestEdgeBetweenTwoBranchesThatLeadTheSameWayDecides(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-large", "controller-blank"), map[string]string{"screen-lives": "dark"}))
	p.until("pair-to-earth at pair-a").typed("5.0")
	if got := lastRead(p); !strings.HasSuffix(got.Leads, "/pair-board") || p.job.Ask().ID == "again" {
		t.Errorf("5.0 V leads to %q, then %s", got.Leads, p.job.Ask().Title)
	}
}

// lastRead is the last reading recorded.
func lastRead(p *player) *journal.Read {
	p.t.Helper()
	events := p.job.Events()
	for i := len(events) - 1; i >= 0; i-- {
		if b, ok := events[i].Body.(*journal.Read); ok {
			return b
		}
	}
	p.t.Fatal("nothing was read")
	return nil
}
