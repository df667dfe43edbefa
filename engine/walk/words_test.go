package walk_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// Numbers to ring are those of the country, or none (handbook 5.4).
func TestWithoutAJurisdictionNoBritishNumberIsShown(t *testing.T) {
	t.Parallel()
	british := regexp.MustCompile(`\b(999|105|0800)\b|\{`)
	for _, id := range []string{"burning", "shock-or-tingle", "water-on-electrics", "hot-relief-discharge", "refrigerant-leak"} {
		p := playWith(t, theHouse().lib, "xx", map[string]string{"danger": id})
		first := p.job.Ask()
		a := p.until("danger met").job.Ask()
		for _, c := range append(first.Cautions, a.Cautions...) {
			if british.MatchString(c.Words) {
				t.Errorf("%s: %s", c.ID, c.Words)
			}
		}
		if text := everyWord(p.job); british.MatchString(text) {
			t.Errorf("%s: %s", id, text)
		}
		if !slices.Contains(cautionIDs(first), "local-rules") {
			t.Errorf("the first screen abroad shows %v", cautionIDs(first))
		}
	}
	if got := cautionIDs(play(t, nil).job.Ask()); slices.Contains(got, "local-rules") {
		t.Errorf("in Great Britain it shows %v", got)
	}
}

func cautionIDs(a *walk.Ask) []string {
	var out []string
	for _, c := range a.Cautions {
		out = append(out, c.ID)
	}
	return out
}

func TestDangerSaysWhatToDoBeforeItsCautions(t *testing.T) {
	t.Parallel()
	p := play(t, map[string]string{"danger": "burning"}).until("danger met")
	if a := p.job.Ask(); !a.Urgent || !strings.HasPrefix(a.Body[0], "Say (if somebody else is there): “") {
		t.Errorf("urgent %v\n%s", a.Urgent, p.body())
	}
}

// A caution shown in full is a reminder from then on, and stands in the record.
func TestCautionShownWithAQuestionIsAReminderAtTheNext(t *testing.T) {
	t.Parallel()
	p := board(t).command("give up", "called away").until("leave")
	for _, c := range p.job.Ask().Cautions {
		if c.Again {
			t.Errorf("%s was not shown before", c.ID)
		}
	}
	p.choose("isolated").until("handover")
	if cs := p.job.Ask().Cautions; len(cs) == 0 || slices.ContainsFunc(cs, func(c walk.Caution) bool { return !c.Again }) {
		t.Errorf("at the closing: %+v", cs)
	}
	recorded := false
	for _, e := range p.job.Events() {
		if b, ok := e.Body.(*journal.Answered); ok && b.Ask == "leave" {
			recorded = slices.Contains(b.Cautions, "tell-the-customer")
		}
	}
	if !recorded {
		t.Error("the record does not have what was shown")
	}
}

// By phone what keeps people safe at a cover is said in full each time (handbook 5.2).
func TestByPhoneTheIsolationCautionsAreInFullAtEachCover(t *testing.T) {
	t.Parallel()
	for operator, full := range map[string]bool{"phone": true, "here": false} {
		p := play(t, with(engineer("millrace-spur", "no-heat-demand"), map[string]string{"operator": operator, "demand-shows": "none"})).until("prove")
		if got := slices.ContainsFunc(p.job.Ask().Cautions, func(c walk.Caution) bool { return c.ID == "several-supplies" && !c.Again }); got != full {
			t.Errorf("%s: in full at the proof: %v %+v", operator, got, p.job.Ask().Cautions)
		}
	}
}

func TestNewHandsHearCautionsInFull(t *testing.T) {
	t.Parallel()
	p := atOpenBox(t)
	p.give(walk.Answer{Typed: "0.3"})
	again := func(a *walk.Ask) bool {
		return slices.ContainsFunc(a.Cautions, func(c walk.Caution) bool { return c.ID == "live-work" && c.Again })
	}
	if !again(p.until("reading").job.Ask()) {
		t.Error("at the second reading the same hands hear it in full")
	}
	p.command("hand over", "").choose("yes").until("acts")
	for _, c := range p.job.Ask().Cautions {
		if c.Again {
			t.Errorf("%s is a reminder to hands that never heard it", c.ID)
		}
	}
}

// What was read is named by the row it lies in, not by branches it may still lead to.
func TestReadingFallsIntoTheRowItLiesIn(t *testing.T) {
	t.Parallel()
	p := board(t)
	a := p.job.Ask()
	out, err := p.job.Answer(walk.Answer{Typed: "231"}, "test", morning)
	if err != nil || out.Reading == nil || out.Reading.Words != "231 V" {
		t.Fatalf("%v %+v", err, out.Reading)
	}
	var held []walk.Range
	for _, r := range a.Reading.Ranges {
		if r.Holds(out.Reading.Within) {
			held = append(held, r)
		}
	}
	if len(held) != 1 || !strings.HasSuffix(held[0].Words, " V to 253 V") || !strings.HasPrefix(held[0].Meaning, "the board has its mains") { // 253 V: the upper limit by statute
		t.Errorf("231 V falls into %+v", held)
	}
}

// Rows that say the same are one, and a table that tells nothing is not shown.
func TestRangesThatSayTheSameAreOneRow(t *testing.T) {
	t.Parallel()
	tables := 0
	for _, c := range callouts {
		p := play(t, with(engineer(c.plant, c.symptom), c.wrong)).until("result")
		for _, a := range p.asks {
			if a.Reading == nil {
				continue
			}
			rows := a.Reading.Ranges
			for i := 1; i < len(rows); i++ {
				if tables++; rows[i].Meaning == rows[i-1].Meaning {
					t.Errorf("%s: two rows say %q", a.Title, rows[i].Meaning)
				}
			}
			if len(rows) == 1 && strings.HasPrefix(rows[0].Meaning, "not decided") {
				t.Errorf("%s: a table that tells nothing", a.Title)
			}
		}
	}
	if tables == 0 {
		t.Error("no table was drawn")
	}
}

func TestFewCausesAreNamedAndWhyListsAll(t *testing.T) {
	t.Parallel()
	p := play(t, with(plainHands("householder", "here"), map[string]string{"plant": "millrace-small", "symptom": "controller-blank", "screen-lives": "dark"})).until("beyond")
	line := p.job.Ask().Body[len(p.job.Ask().Body)-1]
	if strings.Count(line, ";") != 3 || !strings.Contains(line, " more (why lists them)") || !strings.Contains(p.job.Ask().Body[0], "not for these hands") {
		t.Errorf("it says\n%s", p.body())
	}
	p.command("why", "")
	n := 0
	for _, s := range p.said {
		if strings.HasPrefix(s, "Still possible: ") {
			n++
		}
	}
	if all := p.job.Reachable(); n != len(all) || n <= 3 {
		t.Errorf("why lists %d of %d", n, len(all))
	}
}

func TestPassedOnByPhoneSaysWhatToTellFirst(t *testing.T) {
	t.Parallel()
	p := play(t, with(plainHands("householder", "phone"), map[string]string{"plant": "millrace-small", "symptom": "controller-blank", "screen-lives": "dark"}))
	p.until("beyond").choose("refer").until("handover")
	if !strings.Contains(p.body(), "Say: “The next step needs an engineer.") {
		t.Errorf("before closing it says\n%s", p.body())
	}
}

// A supply that is referred as isolated is not put back on.
func TestReferralThatLeavesItIsolatedOffersNoPower(t *testing.T) {
	t.Parallel()
	for _, id := range []string{"supply-broken", "supply-neutral", "supply-out-of-limits", "trips-again", "trips-unloaded", "reset-unsafe"} {
		if r := theHouse().lib.Set.Referrals[id]; !r.Isolated {
			t.Errorf("%s is left %q and may go back on", id, r.Leave)
		}
	}
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark",
		"supply-at at permanent-live": "0.3", "supply-at at feed-live": "0.3"}))
	p.untilAsk("the isolator", func(a *walk.Ask) bool { return strings.Contains(a.Title, "isolator's live out") }).typed("0.3").typed("0.3").typed("0.3").until("referral")
	if a := p.job.Ask(); !strings.Contains(a.Title, "fits no healthy supply") {
		t.Fatalf("it is referred as %q%s", a.Title, p.story())
	}
	from := len(p.asks)
	p.choose("refer").run()
	for _, a := range p.asks[from:] {
		if a.ID == "leave" || strings.HasPrefix(a.Title, "Power back") {
			t.Errorf("it asks %s %q", a.ID, a.Title)
		}
	}
	if len(p.job.World().Locked()) == 0 || len(p.job.Exposed()) > 0 {
		t.Errorf("locked %v, exposed %v", p.job.World().Locked(), p.job.Exposed())
	}
}

func TestReadingByPhoneBeginsWithThePhoneDown(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"operator": "phone", "screen-lives": "dark"})).until("reading")
	if p.job.Ask().Body[0] != "Phone down, measure, step back, then report." {
		t.Errorf("it begins\n%s", p.body())
	}
	if !strings.HasPrefix(p.job.Ask().Title, "Read volts ac: ") {
		t.Errorf("titled %q", p.job.Ask().Title)
	}
}
