package walk_test

import (
	"strings"
	"testing"

	"faultwalk/engine/walk"
)

// board plays to the board's live to neutral reading.
func board(t *testing.T) *player {
	t.Helper()
	return play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"})).until("supply-at at permanent-live")
}

func TestDigitLostWhereMainsIsExpectedIsAskedBack(t *testing.T) {
	t.Parallel()
	for typed, want := range map[string]string{"23": "Did you mean 230 V?", "2310": "Did you mean 231 V?", "24.1": "Did you mean 241 V?"} {
		p := board(t)
		before := len(p.job.Events())
		p.typed(typed)
		if a := p.job.Ask(); a.ID != "slip" || a.Title != want {
			t.Errorf("%s: it asks %q, expected %q", typed, a.Title, want)
		}
		if len(p.job.Events()) != before {
			t.Errorf("%s: recorded before it was settled", typed)
		}
		p.choose("yes")
		if v := lastRead(p).Values[0]; v.Low < 216 || v.Low > 253 {
			t.Errorf("%s: yes records %+v", typed, v)
		}
	}
}

func TestNoIsTakenForAnAnswer(t *testing.T) {
	t.Parallel()
	p := board(t).typed("23").choose("no")
	if v := lastRead(p).Values[0]; v.Low != 23 || v.Typed != "23" {
		t.Errorf("no records %+v", v)
	}
	// beyond every meter there is nothing to record: it is typed again
	p = board(t)
	before := len(p.job.Events())
	p.typed("2310").choose("no")
	if len(p.job.Events()) != before || p.job.Ask().ID != "reading" {
		t.Errorf("2310 and no: %d events more, then %s", len(p.job.Events())-before, p.job.Ask().ID)
	}
	// and an answer half given can be taken back
	p = board(t).typed("23").command("back", "")
	if len(p.job.Events()) != before || p.job.Ask().ID != "reading" {
		t.Error("back does not leave the question")
	}
}

// 23 V from neutral to earth, or on a released call, is a finding.
func TestSmallVoltsWhereNoMainsIsExpectedAreNoSlip(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark", "neutral-earth at neutral": "9"}))
	p.until("triple-at at permanent-live").typed("231").typed("231").typed("23")
	if a := p.job.Ask(); a.ID == "slip" {
		t.Errorf("23 V neutral to earth: %q", a.Title)
	}
	p = play(t, with(engineer("millrace-spur", "no-heat-demand"), map[string]string{"demand-shows": "none"})).until("falls at heat-call calling heat").typed("23")
	if a := p.job.Ask(); a.ID == "slip" {
		t.Errorf("23 V on a released call: %q", a.Title)
	}
}

func TestWhatIsNoReadingIsRefusedInOneLine(t *testing.T) {
	t.Parallel()
	p := board(t)
	for _, typed := range []string{"", "  ", "hot", "12 kΩ", "231 A", "-5k", "1e9", "OL", "moving", "190 moving", strings.Repeat("9", 200)} {
		p.refused(walk.Answer{Typed: typed}, "expected")
	}
	p.refused(walk.Answer{Choice: "yes"}, "expected")
}

func TestOverRangeIsAReadingOfOhms(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-large", "cylinder-stays-cold"), callouts[1].wrong)).until("motor-ohms of cylinder-valve").typed("OL")
	b := lastRead(p)
	if v := b.Values[0]; !v.Open || v.Low != 60e6 || !strings.Contains(b.Verdict, "burnt out") {
		t.Errorf("OL is recorded as %+v: %s", b.Values[0], b.Verdict)
	}
	if got := p.said[len(p.said)-1]; !strings.HasPrefix(got, "OL (above 60 MΩ): ") {
		t.Errorf("it says %q", got)
	}
}

func TestMoreThanTheMeterShowsIsRefused(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), callouts[0].wrong)).until("core-continuity of switch-wire")
	p.refused(walk.Answer{Typed: "90k"}, "shows at most", "OL")
}
