package walk_test

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// Every danger ends the job before anything is touched, with what to do and
// whom to call; for a shock the main switch is no cure (handbook 5.1).
func TestDangerEndsTheJobWithWhatToDo(t *testing.T) {
	t.Parallel()
	want := map[string][]string{
		"burning":              {"999", "electrically competent"},
		"shock-or-tingle":      {"main switch", "not enough", "105"},
		"water-on-electrics":   {"Keep away", "dried"},
		"hot-relief-discharge": {"every tap and every water valve as it is", "unvented"},
		"refrigerant-leak":     {"three metres", "not use the switch beside it", "certified for refrigerant"},
	}
	for id, words := range want {
		p := play(t, map[string]string{"danger": id}).until("danger met")
		a := p.job.Ask()
		text := a.Title + "\n" + p.body()
		for _, w := range words {
			if !strings.Contains(text, w) {
				t.Errorf("%s: nothing says %q:\n%s", id, w, text)
			}
		}
		if !strings.HasPrefix(a.Title, "Stop: ") || len(a.Cautions) == 0 || !slices.Equal(offered(a.Choices), []string{"read"}) {
			t.Errorf("%s: %q %v", id, a.Title, offered(a.Choices))
		}
		if c := p.choose("read").closed(); c.As != journal.Referred || c.To == "" {
			t.Errorf("%s: closed %+v", id, c)
		}
	}
}

func TestDangerIsAskedFirstOfEveryJob(t *testing.T) {
	t.Parallel()
	p := play(t, nil)
	if a := p.job.Ask(); a.ID != "danger" || len(a.Choices) != 6 || len(a.Cautions) < 2 {
		t.Errorf("it begins with %s, %d choices, %d cautions", a.ID, len(a.Choices), len(a.Cautions))
	}
}

// Each of the three facts that turn readings round sends back to the choice of
// plant when it is not so.
func TestFactThatIsNotThisPlantsSendsBackToTheChoiceOfPlant(t *testing.T) {
	t.Parallel()
	for fact, other := range map[string]string{"unit": "split", "heat-call": "volt-free", "board-fed": "own-spur"} {
		p := play(t, engineer("millrace-small", "no-heat-demand")).until("fact " + fact).choose(other)
		if a := p.job.Ask(); a.ID != "plant" {
			t.Errorf("%s is %s: it asks %s", fact, other, a.ID)
		}
		if got := p.said[len(p.said)-1]; !strings.Contains(got, "That is not the plant you chose: to “") || !strings.Contains(got, "this plant has “") || !strings.Contains(got, "the answer was “") {
			t.Errorf("it says %q", got)
		}
		p.tell["plant"] = "millrace-large"
		p.until("look")
		if p.job.Plant().ID != "millrace-large" {
			t.Errorf("it goes on with %s", p.job.Plant().ID)
		}
	}
}

func TestIntakeAsksOnceWhoWhatAndWithWhich(t *testing.T) {
	t.Parallel()
	p := play(t, engineer("millrace-small", "no-heat-demand")).until("look")
	var got []string
	for _, a := range p.asks {
		got = append(got, a.ID)
	}
	want := []string{"danger", "operator", "hands", "certificates", "instruments", "tester", "told", "plant", "fact unit", "fact heat-call", "fact board-fed", "symptom", "changed"}
	if !slices.Equal(got, want) {
		t.Errorf("it asks %v, expected %v", got, want)
	}
	for _, e := range p.job.Events() {
		if b, ok := e.Body.(*journal.Handed); ok && (b.Hands.Calibration != "2026-01-10" || !b.Hands.ProvingUnit || len(b.Hands.Kit) != 6) {
			t.Errorf("handed to %+v", b.Hands)
		}
	}
}

func TestIntakeRefusesWhatIsNoAnswer(t *testing.T) {
	t.Parallel()
	for ask, wrong := range map[string][]walk.Answer{
		"danger":      {{Choice: "no"}, {}},
		"hands":       {{Choice: "wizard"}},
		"instruments": {{Typed: ""}, {Typed: "9"}, {Typed: "1 all"}, {Typed: "spanner"}},
		"tester":      {{Fields: []string{"yes"}}, {Fields: []string{"perhaps", "2026"}}, {Fields: []string{"yes", " "}}, {Fields: []string{"yes", "all"}}, {Fields: []string{"yes", "yes"}}, {Fields: []string{"yes", "two-pole"}}},
		"plant":       {{Choice: "millrace"}},
		"symptom":     {{Choice: "cold"}},
	} {
		p := play(t, engineer("millrace-small", "no-heat-demand")).until(ask)
		for _, ans := range wrong {
			p.refused(ans)
		}
	}
}

func TestInstrumentsAreChosenByNumberNameAllOrNone(t *testing.T) {
	t.Parallel()
	for typed, want := range map[string]int{"1": 1, "1 2": 2, "1,2,6": 3, "all": 6, "ALL": 6, "two-pole multimeter": 2, "none": 0, "1 1": 1} {
		p := play(t, with(engineer("millrace-small", "no-heat-demand"), map[string]string{"instruments": typed})).until("told")
		for _, e := range p.job.Events() {
			if b, ok := e.Body.(*journal.Handed); ok && len(b.Hands.Kit) != want {
				t.Errorf("%q gives %v", typed, b.Hands.Kit)
			}
		}
	}
}

func TestCalibrationIsTakenAsPeopleSayIt(t *testing.T) {
	t.Parallel()
	for _, when := range []string{"2026-01-10", "Jan 2026", "last summer", "not known", "unknown", "10/01/26"} {
		p := play(t, with(engineer("millrace-small", "no-heat-demand"), map[string]string{"tester": "yes|" + when})).until("told")
		for _, e := range p.job.Events() {
			if b, ok := e.Body.(*journal.Handed); ok && b.Hands.Calibration != when {
				t.Errorf("%q is kept as %q", when, b.Hands.Calibration)
			}
		}
	}
}

// Whoever does not know, or whose plant is none of these, has a way out: the job
// is passed on with what disagreed.
func TestPlantThatIsNoneOfTheseIsPassedOn(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "no-heat-demand"), map[string]string{"operator": "phone"})).until("fact unit")
	if !strings.HasPrefix(p.body(), "Say: “") {
		t.Errorf("by phone the fact is asked\n%s", p.body())
	}
	p.choose("unknown")
	if a := p.job.Ask(); a.ID != "plant" || !slices.Contains(offered(a.Choices), "none") || a.Choices[1].Detail == "" {
		t.Fatalf("after not known it asks %s %v", a.ID, a.Choices)
	}
	p.choose("none")
	if a := p.job.Ask(); a.ID != "no plant" || !strings.Contains(p.body(), "the answer was “not known”") || !strings.HasPrefix(p.body(), "Say: “") {
		t.Errorf("it asks %s\n%s", a.ID, p.body())
	}
	if c := p.choose("refer").closed(); c.As != journal.Referred || c.To == "" || p.job.Referral() == nil {
		t.Errorf("closed %+v", c)
	}
}

func TestEveryPlantDisagreeingEndsInAWayOut(t *testing.T) {
	t.Parallel()
	p := play(t, engineer("millrace-small", "no-heat-demand"))
	for i, id := range theHouse().plants {
		p.until("plant")
		if got := slices.Contains(offered(p.job.Ask().Choices), "none"); got {
			t.Errorf("after %d plants none of these is offered", i)
		}
		p.choose(id).until("fact unit").choose("split")
	}
	if got := offered(p.job.Ask().Choices); !slices.Contains(got, "none") {
		t.Errorf("after all of them it offers %v", got)
	}
}

// Nothing is proved dead without a proving unit: that is said at once, and no
// cover comes off for it.
func TestWithoutAProvingUnitNoMainsCoverComesOff(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"tester": "no|not known", "screen-lives": "dark"})).until("told")
	if got := p.said[len(p.said)-1]; !strings.Contains(got, "no mains cover comes off") {
		t.Errorf("at the intake it says %q", got)
	}
	p.until("beyond")
	if n := p.count(journal.ActOpen) + p.count(journal.ActLock); n != 0 {
		t.Errorf("%d locks and covers were handled first%s", n, p.story())
	}
	if got := offered(p.job.Ask().Choices); !slices.Contains(got, "refer") || !strings.Contains(p.body(), "proving unit") {
		t.Errorf("it offers %v\n%s", got, p.body())
	}
}

// A tree of somebody's own need not say which plants it serves.
func TestTreeThatNamesNoPlantsIsOfferedOnEach(t *testing.T) {
	t.Parallel()
	lib, err := flickerLib()
	if err != nil {
		t.Fatal(err)
	}
	for _, plant := range theHouse().plants {
		p := playWith(t, lib, "gb", engineer(plant, "")).until("symptom")
		if got := offered(p.job.Ask().Choices); !slices.Contains(got, "lamp-flickers") {
			t.Errorf("%s offers %v", plant, got)
		}
	}
}
