package rehearse

import (
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/strict"
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

// A cause that its second reading brought about has one fact, not two.
func TestWhatCameOfASecondReadingIsTold(t *testing.T) {
	t.Parallel()
	filament := func(feed reply) *fake {
		return lamp(broke("f", 1, "lamp-filament", ""), map[string]reply{"lamp-fed": feed, "lamp-ohms": ohms(1e4)})
	}
	beyond := loose(volts(231, 231))
	failing := loose(volts(231, 231))
	failing.fails = map[string]bool{"f lamp-fed": true}
	for _, c := range []struct {
		m    *fake
		o    Options
		want Second
		one  string // gate that it breaks
	}{
		{loose(volts(231, 231)), Options{}, Fits, ""},
		{loose(volts(200, 231)), Options{}, Undecided, ""},
		{filament(volts(231, 231)), Options{}, Deciding, "the deciding reading is not its own second"},
		{lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": volts(0, 0)}), Options{}, Unconfirmed, ""},
		{beyond, Options{Persons: []Person{{"householder", journal.Hands{Kind: "householder"}}}}, Refused, ""},
		{failing, Options{}, Unsimulated, "what proves a repair can be simulated"},
	} {
		r := rehearsed(t, c.m, c.o)
		if r.Cases[0].second != c.want || r.Second[c.want] != 1 || len(r.Second) != 1 {
			t.Errorf("they %s, %v; expected that they %s", r.Cases[0].second, r.Second, c.want)
		}
		for _, g := range c.o.proofGates(r) {
			if g.Holds == (g.Name == c.one) {
				t.Errorf("they %s, and the gate %q is %v", c.want, g.Name, g.Holds)
			}
		}
		if text := r.Text(Layout{}); !strings.Contains(text, "second readings that "+string(c.want)+": 1\n") {
			t.Errorf("the report does not say that they %s:\n%s", c.want, text)
		}
	}
}

func TestSecondReadingThatWasReadOnTheWayIsCountedApart(t *testing.T) {
	t.Parallel()
	w := &walker{walkState: walkState{now: map[string]*reading{}}, judge: &judge{}}
	fed, glass := &trees.BoundCheck{ID: "lamp-fed"}, &trees.BoundCheck{ID: "lamp-glass"}
	confirm := &trees.BoundConfirm{Check: fed, If: strict.Text{Value: "lit"}}
	e := end{to: trees.Target{Causes: []*trees.BoundCause{{ID: "x", Confirm: confirm}}}}
	step := &trees.Bound{}
	w.now["lamp-fed"] = &reading{check: fed, answer: "lit"}
	w.hops = []hop{{step: step, read: w.now["lamp-fed"]}, {step: step, read: &reading{check: glass}}, {step: step, read: w.now["lamp-fed"], branch: -1}}
	if how, why := w.second(e); how != Before || why != "" {
		t.Errorf("they %s, %q; expected that they %s", how, why, Before)
	}
}
