package walk_test

import (
	"fmt"
	"maps"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/measurements"
)

// plainHands are those that never open or measure mains (handbook 5.2).
func plainHands(kind, operator string) map[string]string {
	return map[string]string{"danger": "none", "operator": operator, "hands": kind, "certificates": "none", "instruments": "all",
		"tester": "yes|2026-01-10", "told": "yes", "changed": "nothing"}
}

// words are all that a question, and what is said on why it is asked, tells a person.
func everyWord(j *walk.Job) string {
	a := j.Ask()
	out := append([]string{a.Title}, a.Body...)
	for _, c := range a.Choices {
		out = append(out, c.Text, c.Detail)
	}
	for _, f := range a.Fields {
		out = append(out, f.Text)
	}
	if slices.Contains(offered(a.Commands), "why") {
		why, _ := j.Answer(walk.Answer{Command: "why"}, "test", morning)
		out = append(out, why.Say...)
	}
	return strings.Join(out, "\n")
}

// chance answers a job's looks by chance and goes on where it may; see is
// shown every question.
func chance(p *player, seed int64, see func(a *walk.Ask)) {
	p.t.Helper()
	r := rand.New(rand.NewSource(seed))
	for range 200 {
		a := p.job.Ask()
		if see(a); a.Kind == walk.Over || p.t.Failed() {
			return
		}
		switch {
		case a.ID == "look":
			p.choose(a.Choices[r.Intn(len(a.Choices))].ID)
		case a.ID == "reading":
			if a.Reading.Quantity == string(measurements.Celsius) {
				p.typed("25")
			} else {
				p.typed([]string{"OL", "9800", "300k"}[r.Intn(3)])
			}
		case a.ID == "beyond", a.ID == "pass", a.ID == "referral", a.ID == "again", a.ID == "result":
			var ways []string
			for _, c := range a.Choices {
				if c.ID != "hands" && c.ID != "again" && c.ID != "other" && !strings.HasSuffix(c.ID, " again") {
					ways = append(ways, c.ID)
				}
			}
			p.choose(ways[r.Intn(min(2, len(ways)))])
		case a.ID == "retest failed":
			p.choose("refer")
		default:
			p.give(p.answer(a))
		}
	}
	p.t.Errorf("the job does not end%s", p.story())
}

// mainsWords are words of measuring and of opening, which plain hands never hear
// as something to do.
var mainsWords = []string{"low impedance", "high impedance", "two-pole", "load button", "Take the cover off", "Lock it off", "Prove dead", "Isolate"}

// Householders and installers walk every tree of every plant, here and on the
// phone, by chance: nothing they are shown words a live or a dead step, and the
// job goes on without it or is passed on with what is still possible.
func TestPlainHandsNeverHearOfALiveOrDeadStep(t *testing.T) {
	t.Parallel()
	h := theHouse()
	for _, plant := range h.plants {
		for _, symptom := range h.symptoms {
			for _, kind := range []string{"householder", "installer"} {
				for _, operator := range []string{"here", "phone"} {
					t.Run(fmt.Sprint(plant, " ", symptom, " ", kind, " ", operator), func(t *testing.T) {
						t.Parallel()
						for seed := range int64(12) {
							p := play(t, with(plainHands(kind, operator), map[string]string{"plant": plant, "symptom": symptom}))
							chance(p, seed, func(a *walk.Ask) { plainOnly(p, a, plant, kind) })
						}
					})
				}
			}
		}
	}
}

// plainOnly holds one question to what plain hands may hear.
func plainOnly(p *player, a *walk.Ask, plant, kind string) {
	p.t.Helper()
	if a.Kind == walk.Write || a.Kind == walk.Over || a.ID == "tester" {
		return // the list of instruments, and the last words
	}
	text := everyWord(p.job)
	for _, w := range mainsWords {
		if strings.Contains(text, w) {
			p.t.Errorf("%s is told %q:\n%s%s", kind, w, text, p.story())
		}
	}
	for _, pt := range theHouse().plant[plant].Points {
		if pt.Role != "elv" && strings.Contains(text, pt.Name()) {
			p.t.Errorf("%s is told of %s:\n%s", kind, pt.Name(), text)
		}
	}
	switch {
	case a.Reading == nil:
	case kind == "householder":
		p.t.Errorf("a householder is to measure: %s", a.Title)
	case a.Reading.Quantity != string(measurements.Ohms) && a.Reading.Quantity != string(measurements.Celsius):
		p.t.Errorf("an installer is to measure %s: %s", a.Reading.Quantity, a.Title)
	}
}

// What comes next is not worded, the reason and what is still possible are.
func TestStepBeyondTheHandsGoesOnByOtherwiseOrIsReferred(t *testing.T) {
	t.Parallel()
	p := play(t, with(plainHands("householder", "here"), map[string]string{"plant": "millrace-small", "symptom": "controller-blank", "screen-lives": "dark"}))
	p.until("beyond")
	if !strings.Contains(p.body(), "not for these hands") || !strings.Contains(p.body(), "Still possible: ") {
		t.Errorf("it says\n%s", p.body())
	}
	if got := offered(p.job.Ask().Choices); !slices.Equal(got, []string{"hands", "refer"}) {
		t.Errorf("without another way it offers %v", got)
	}
	p.command("why", "")
	if !slices.Contains(p.said, p.job.Ask().Body[0]) || !strings.HasPrefix(p.said[len(p.said)-1], "Still possible: ") {
		t.Errorf("why does not say the reason and what is still possible: %s", p.said[len(p.said)-1])
	}
	p.choose("refer").run()
	if c := p.closed(); c.As != journal.Referred || !strings.Contains(c.To, "electrically competent") {
		t.Errorf("closed %+v", c)
	}

	p = play(t, with(plainHands("householder", "here"), map[string]string{"plant": "millrace-small", "symptom": "cylinder-stays-cold",
		"tap-against-screen": "screen-hot"}))
	p.until("beyond")
	if got := offered(p.job.Ask().Choices); !slices.Equal(got, []string{"on", "hands", "refer"}) {
		t.Fatalf("where the tree has another way it offers %v", got)
	}
	before := p.job.Ask().Body
	p.choose("on")
	if a := p.job.Ask(); a.ID == "beyond" && slices.Equal(a.Body, before) {
		t.Errorf("it stays at %s", a.Title)
	}
}

// The walk's own hands change what may be done, not who types.
func TestCompetentHandsTakeOverWhereOthersStopped(t *testing.T) {
	t.Parallel()
	p := play(t, with(plainHands("householder", "here"), map[string]string{"plant": "millrace-small", "symptom": "controller-blank", "screen-lives": "dark"}))
	p.until("beyond").choose("hands")
	p.tell = with(p.tell, map[string]string{"hands": "electrical"})
	p.until("reading")
	if got := p.job.Ask().Check; got != "neutral-earth at neutral" {
		t.Errorf("they are asked for %s", got)
	}
}

func TestApprenticeMeasuresLiveOnlyUnderASupervisorByName(t *testing.T) {
	t.Parallel()
	for watched, may := range map[string]bool{"no": false, "yes": true} {
		says := with(engineer("millrace-small", "controller-blank"), map[string]string{"hands": "apprentice", "watched": watched, "supervisor": "Ann Lind", "screen-lives": "dark"})
		p := play(t, says)
		p.untilAsk("a live reading or its refusal", func(a *walk.Ask) bool { return a.ID == "beyond" || a.ID == "reading" })
		a := p.job.Ask()
		if (a.ID == "reading") != may {
			t.Errorf("watched %q: it asks %s %q", watched, a.ID, a.Title)
		}
		if !may && !strings.Contains(p.body(), "supervisor") {
			t.Errorf("the reason is not given: %s", p.body())
		}
	}
}

func TestByPhoneTheWordsToSayAreUsed(t *testing.T) {
	t.Parallel()
	p := play(t, with(plainHands("householder", "phone"), map[string]string{"plant": "millrace-small", "symptom": "controller-blank"}))
	p.until("look")
	if !strings.HasPrefix(p.body(), "Say: “") || strings.Contains(p.body(), "Where: ") {
		t.Errorf("by phone it shows\n%s", p.body())
	}
	p = play(t, with(engineer("millrace-small", "no-heat-demand"), map[string]string{"operator": "phone"})).until("acts")
	want := theHouse().plant["millrace-small"].Call("heat").Say
	if want == "" || !strings.Contains(p.body(), want) {
		t.Errorf("the call is worded\n%s\nexpected %q", p.body(), want)
	}
}

// A reset of a high-limit, a parted neutral and an insulation test are never
// talked through, whoever is there (handbook 5.2).
func TestWhatIsNeverTalkedThroughIsReferred(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-spur", "cylinder-stays-cold"), callouts[2].wrong))
	p.tell["operator"] = "phone"
	p.tell["beyond"] = "on"
	p.tell["motor-ohms of cylinder-valve"] = "OL"
	p.until("beyond")
	if !strings.Contains(p.body(), "never talked through by phone") {
		t.Errorf("of the high-limit it says\n%s", p.body())
	}
	for _, a := range p.until("result").asks {
		if a.Check == "limit-ohms of high-limit" || a.Check == "limit-reset of high-limit" {
			t.Errorf("by phone: %s", a.Title)
		}
	}
}

// A householder on the phone hears what was worded for that and nothing else.
func TestLookWithoutWordsToSayIsNotForAHouseholderOnThePhone(t *testing.T) {
	t.Parallel()
	p := play(t, with(plainHands("householder", "phone"), map[string]string{"plant": "millrace-small", "symptom": "cylinder-stays-cold",
		"tap-against-screen": "tap-hot", "beyond": "on"}))
	p.until("which-moves") // past the sensor against its thermometer, which has no words to say
	for _, a := range p.asks {
		if c := p.job.Check(a.Check); c != nil && c.Say == "" {
			t.Errorf("by phone: %s", a.Title)
		}
	}
}

// Without the rules of the country only looking and listening is left.
func TestWithoutAJurisdictionOnlyLookingIsLeft(t *testing.T) {
	t.Parallel()
	h := theHouse()
	for _, symptom := range h.symptoms {
		for seed := range int64(8) {
			p := playWith(t, h.lib, "nowhere", engineer("millrace-small", symptom))
			chance(p, seed, func(a *walk.Ask) {
				if c := p.job.Check(a.Check); a.ID == "acts" || a.ID == "prove" || a.ID == "reading" || c != nil && len(c.Need.Asks) > 0 && !slices.Equal(c.Need.Asks, []string{"look"}) {
					t.Errorf("without a jurisdiction: %s %s", a.ID, a.Title)
				}
			})
		}
	}
}

// A repair without words to say is not one for a householder on the phone.
func TestRepairWithoutWordsToSayIsNotForAHouseholderOnThePhone(t *testing.T) {
	t.Parallel()
	lib := theHouse().lib
	set, wordless := *lib.Set, *lib.Set.Causes["back-up-off"]
	wordless.Remedy.Say = ""
	set.Causes = maps.Clone(set.Causes)
	set.Causes["back-up-off"], lib.Set = &wordless, &set
	for operator, may := range map[string]bool{"phone": false, "here": true} {
		p := playWith(t, lib, "gb", with(plainHands("householder", operator), map[string]string{"plant": "millrace-small", "symptom": "controller-blank",
			"screen-lives": "dark", "unit-switches": "back-up-off"})).until("result")
		if got := slices.Contains(offered(p.job.Ask().Choices), "repair back-up-off"); got != may {
			t.Errorf("%s: the repair is offered: %v\n%s", operator, got, p.body())
		}
	}
}

// What tripped and holds after a reset has an untested cause: whoever may not
// test it passes it on, and nobody comes to a proven repair without the test.
func TestWhatTrippedOnceIsNotProvenWithoutATest(t *testing.T) {
	t.Parallel()
	for kind, may := range map[string]bool{"householder": false, "installer": false, "electrical": true} {
		p := play(t, with(plainHands(kind, "here"), map[string]string{"plant": "millrace-small", "symptom": "rcd-trips",
			"tripped-which": "unit", "reset-once": "holds", "rcd-type": "right", "dry-outside": "wet"})).until("result")
		const cause = "repair leaked-once of unit-breaker at isolator-out-live parted unit-feed-neutral"
		got := offered(p.job.Ask().Choices)
		if slices.Contains(got, cause) != may || !slices.Contains(got, "leave") || !slices.Contains(got, "refer") {
			t.Errorf("%s: it offers %v", kind, got)
		}
		if kind != "electrical" {
			continue
		}
		p.choose(cause).until("repair").choose("done").until("circuit-insulation at isolator-out-live parted unit-feed-neutral")
	}
}

// Somebody who is not to open a thing does not take its cover off for a step
// that is then refused (handbook 5.2).
func TestNoCoverComesOffByPhoneForAStepThatIsNeverRelayed(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "rcd-trips"), map[string]string{"operator": "phone",
		"tripped-which": "unit", "reset-once": "trips-unit", "box-inside of unit-isolator-box": "sound"})).until("beyond")
	if !strings.Contains(p.body(), "never talked through by phone") {
		t.Errorf("of the insulation it says\n%s", p.body())
	}
	for _, e := range p.job.Events() {
		if b, ok := e.Body.(*journal.Acted); ok && b.Act.Do == journal.ActOpen && b.Act.On != "unit-isolator-box" && b.Act.On != "valve-box" {
			t.Errorf("by phone the cover of %s came off", b.Act.On)
		}
	}
}
