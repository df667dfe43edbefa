package walk_test

import (
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// refused holds an answer to one line of reason and nothing recorded.
func (p *player) refused(ans walk.Answer, words ...string) {
	p.t.Helper()
	before, was := len(p.job.Events()), p.job.Ask().Title
	err := p.try(ans)
	switch {
	case err == nil:
		p.t.Errorf("%+v is taken", ans)
		return
	case strings.Contains(err.Error(), "\n"):
		p.t.Errorf("%+v: more than a line: %v", ans, err)
	case len(p.job.Events()) != before:
		p.t.Errorf("%+v: refused and recorded", ans)
	case p.job.Ask().Title != was:
		p.t.Errorf("%+v: it asks %q next", ans, p.job.Ask().Title)
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			p.t.Errorf("%+v: %v; expected %q in it", ans, err, w)
		}
	}
}

func TestEarlyReadingsAreUsedWhenTheWalkArrives(t *testing.T) {
	t.Parallel()
	p := play(t, engineer("millrace-small", "controller-blank")).until("look")
	p.command("reading", "unit-switches=all-on")
	p.command("reading", "supply-at at permanent-live=231")
	p.tell["screen-lives"] = "dark"
	p.until("pair-to-earth at pair-a")
	for _, a := range p.asks {
		if a.Check == "unit-switches" || a.Check == "supply-at at permanent-live" {
			t.Errorf("it is asked for all the same: %s", a.Title)
		}
	}
	if got := p.read(journal.ForEarly); got != "unit-switches, supply-at at permanent-live" {
		t.Errorf("recorded as early: %s", got)
	}
}

func TestEarlyReadingOfSeveralProbesIsPartedBySlashes(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"})).until("look")
	p.command("reading", "supply-at at permanent-live=0.4/231")
	p.until("reading").typed("0.3") // neutral to earth, then the early reading leads on
	if a := p.job.Ask(); a.Check != "dry-outside" {
		t.Errorf("0.4 V to neutral and 231 V to earth lead to %s %q", a.ID, a.Title)
	}
}

func TestEarlyReadingThatIsNoneIsRefused(t *testing.T) {
	t.Parallel()
	p := play(t, engineer("millrace-small", "controller-blank")).until("look")
	for rest, want := range map[string]string{
		"":                                   "expected CHECK=VALUE",
		"231":                                "expected CHECK=VALUE",
		"screen-alive=dark":                  `this tree takes no check "screen-alive"`,
		"supply-at at nowhere=231":           "this tree takes no check",
		"supply-at at permanent-live=":       "expected",
		"supply-at at permanent-live=x":      "expected",
		"supply-at at permanent-live=231 kΩ": "expected",
		"supply-at at permanent-live=231/231/0.4":  "takes at most 2 readings",
		"screen-lives=purple":                      `"purple" is no answer to`,
		"limit-ohms of high-limit=0.2":             "this tree takes no check",
		"core-continuity of feed-live-core=-3 ohm": "expected",
	} {
		p.refused(walk.Answer{Command: "reading", Rest: rest}, want)
	}
}

func TestEarlyReadingIsGivenOnce(t *testing.T) {
	t.Parallel()
	p := play(t, engineer("millrace-small", "controller-blank")).until("look")
	p.command("reading", "supply-at at permanent-live=231")
	p.refused(walk.Answer{Command: "reading", Rest: "supply-at at permanent-live=0.2"}, "was given already", "231 V", "take that back first")
}

// A reading counts from hands that may take it.
func TestEarlyReadingBeyondTheHandsIsRefused(t *testing.T) {
	t.Parallel()
	p := play(t, with(plainHands("installer", "here"), map[string]string{"plant": "millrace-small", "symptom": "controller-blank"})).until("look")
	p.refused(walk.Answer{Command: "reading", Rest: "supply-at at permanent-live=231"}, "only from hands that may take it")
}

func TestEarlyMainsWithADigitLostIsAskedBack(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"})).until("look")
	p.command("reading", "supply-at at permanent-live=23/231")
	if a := p.job.Ask(); a.ID != "slip" || a.Title != "Did you mean 230 V?" {
		t.Fatalf("it asks %s %q", a.ID, a.Title)
	}
	p.choose("no")
	if v := lastRead(p).Values; len(v) != 2 || v[0].Typed != "23" || v[1].Typed != "231" {
		t.Errorf("recorded %+v", v)
	}
}

// A sensor is judged at the temperature of its pocket: given first, its ohms
// wait for that.
func TestReadingThatNeedsAnEarlierOneWaitsForIt(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-large", "cylinder-stays-cold"), map[string]string{"tap-against-screen": "tap-hot", "shown-against-pocket of cylinder-sensor": "absurd"}))
	p.until("look").command("reading", "sensor-ohms of cylinder-sensor=12k")
	p.until("pocket-temperature of cylinder-sensor").typed("25")
	p.untilAsk("what follows from its ohms", func(a *walk.Ask) bool { return a.Check == "sensor-joint of cylinder-sensor" })
	for _, a := range p.asks {
		if a.Check == "sensor-ohms of cylinder-sensor" {
			t.Error("its ohms are asked for again")
		}
	}
	// and without it the temperature is asked for first
	p = play(t, with(engineer("millrace-large", "cylinder-stays-cold"), map[string]string{"tap-against-screen": "tap-hot", "shown-against-pocket of cylinder-sensor": "absurd"}))
	p.until("pocket-temperature of cylinder-sensor").command("skip", "no thermometer")
	p.until("pocket-temperature of cylinder-sensor").command("skip", "still none")
	if a := p.job.Ask(); a.ID != "referral" || !strings.Contains(a.Title, "still none") {
		t.Errorf("without it the sensor is judged: %s %q", a.ID, a.Title)
	}
}
