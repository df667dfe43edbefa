package rehearse

import (
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
)

// loose is a lamp that flickers, and whose second reading is its feed.
func loose(feed reply) *fake {
	return lamp(broke("f", 1, "lamp-loose", ""), map[string]reply{"lamp": {answer: "flickers"}, "lamp-fed": feed})
}

func TestSecondReadingThatSpeaksAgainstTheCauseMakesTheWalkWrong(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		feed reply
		want Verdict
		says string
	}{
		{volts(231, 231), Exact, "fits"},
		{volts(0, 231), Wrong, "speaks against lamp-loose, which wants sound(ln)"},
		{volts(200, 231), Exact, "decides nothing"}, // the edge of sound, across which the tester's accuracy carries it
	} {
		got := one(t, loose(c.feed), Options{})
		if got.Verdict != c.want || (c.want == Wrong) != strings.Contains(got.Why, "speaks against") {
			t.Errorf("%v: %s, %q", c.feed.values, got.Verdict, got.Why)
		}
		if !strings.Contains(strings.Join(got.Steps(), "\n"), c.says) {
			t.Errorf("%v: the steps do not say that it %s:\n%s", c.feed.values, c.says, strings.Join(got.Steps(), "\n"))
		}
	}
}

func TestSecondReadingBeyondTheHandsIsSaidAndKeepsTheVerdict(t *testing.T) {
	t.Parallel()
	householder := Person{"householder", journal.Hands{Kind: "householder"}}
	c := one(t, loose(volts(0, 0)), Options{Persons: []Person{householder}})
	if c.Verdict != Exact || c.Minutes != 1 {
		t.Errorf("%s in %g minutes: %s; expected exact by one look of a minute", c.Verdict, c.Minutes, c.Why)
	}
	if steps := strings.Join(c.Steps(), "\n"); !strings.Contains(steps, "the second reading lamp-fed is not taken: ") {
		t.Errorf("the steps do not say why:\n%s", steps)
	}
}

// The way to the terminals is some twenty minutes, and the reading two.
func TestSecondReadingCountsItsMinutes(t *testing.T) {
	t.Parallel()
	with := one(t, loose(volts(231, 231)), Options{})
	if with.Minutes < 1+8+2+2 {
		t.Errorf("%g minutes with the second reading", with.Minutes)
	}
}

// A job does not ask again for what the tree has read.
func TestSecondReadingThatWasTakenIsNotTakenAgain(t *testing.T) {
	t.Parallel()
	m := lamp(broke("f", 1, "lamp-filament", ""), map[string]reply{"lamp-fed": volts(231, 231), "lamp-ohms": ohms(1e4)})
	c := one(t, m, Options{})
	n := 0
	for at := c.node; at != nil; at = at.before {
		for _, body := range at.bodies {
			if b, ok := body.(*journal.Read); ok && b.Check == "lamp-ohms" {
				n++
			}
		}
	}
	if c.Verdict != Exact || n != 1 {
		t.Errorf("%s, lamp-ohms is read %d times, expected once", c.Verdict, n)
	}
}

// The monitor sees the second reading too: a meter that lifts a case is unsafe
// wherever it is.
func TestSecondReadingIsWatchedForSafety(t *testing.T) {
	t.Parallel()
	feed := volts(231, 231)
	feed.lifted = caseVolts + 1
	if c := one(t, loose(feed), Options{Kit: measurements.DefaultKit()}); c.Verdict != Unsafe {
		t.Errorf("a second reading that lifts a case is %s", c.Verdict)
	}
}
