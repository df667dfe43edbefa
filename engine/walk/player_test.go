package walk_test

import (
	"fmt"
	"maps"
	"strings"
	"testing"
	"time"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// morning is when every job of these tests is done.
var morning = time.Date(2026, 2, 3, 9, 0, 0, 0, time.UTC)

// player answers a job as a person at a plant would: the intake by ask, looks
// and readings by check instance and probe, acts by doing them.
type player struct {
	t     *testing.T
	job   *walk.Job
	says  map[string]string // ask, or "check" or "check:probe" → answer
	after map[string]string // answers once something was repaired
	seen  []string          // every question, for the test to look at
	said  []string
	stopt func(a *walk.Ask) bool // stop before this question
}

func library(t *testing.T) walk.Library {
	t.Helper()
	set, problems := trees.Embedded()
	if len(problems) > 0 {
		t.Fatal(problems.Format(20))
	}
	return walk.Library{Set: set, Kit: measurements.DefaultKit(), Build: "test"}
}

// engineer are the intake's answers of an electrically competent person with a full kit.
func engineer(plant, symptom string) map[string]string {
	return map[string]string{"danger": "none", "operator": "here", "hands": "electrical", "certificates": "unvented",
		"instruments": "all", "tester": "yes|2026-01-10", "told": "yes", "plant": plant, "symptom": symptom, "changed": "nothing"}
}

func play(t *testing.T, says map[string]string) *player {
	t.Helper()
	job, _ := walk.Begin(library(t), "job-1", "test", "gb", morning)
	return &player{t: t, job: job, says: says}
}

// run answers until the job is closed, a question has no answer, or stop says so.
func (p *player) run() *player {
	p.t.Helper()
	for range 400 {
		a := p.job.Ask()
		if a.Kind == walk.Over || p.stopt != nil && p.stopt(a) {
			return p
		}
		ans, ok := p.answer(a)
		if !ok {
			p.t.Fatalf("no answer for %s %q (%s)\n%s\nso far:\n%s", a.ID, a.Title, a.Check, strings.Join(a.Body, "\n"), strings.Join(p.seen, "\n"))
		}
		p.give(a, ans)
	}
	p.t.Fatalf("the job does not end:\n%s", strings.Join(p.seen[len(p.seen)-20:], "\n"))
	return p
}

func (p *player) give(a *walk.Ask, ans walk.Answer) {
	p.t.Helper()
	out, err := p.job.Answer(ans, "test", morning)
	if err != nil {
		p.t.Fatalf("%s %q refused %+v: %v\nso far:\n%s", a.ID, a.Title, ans, err, strings.Join(p.seen, "\n"))
	}
	if a.ID == "repair" {
		maps.Copy(p.says, p.after)
	}
	p.seen = append(p.seen, strings.Join(a.Body, "\n      "), fmt.Sprintf("%s | %s | %s%s%s", a.ID, a.Title, ans.Choice, ans.Typed, strings.Join(ans.Fields, " ")))
	p.said = append(p.said, out.Say...)
	p.job.Apply(out.Events...)
}

func (p *player) answer(a *walk.Ask) (walk.Answer, bool) {
	switch a.ID {
	case "acts":
		return walk.Answer{Choice: "done"}, true
	case "prove":
		return walk.Answer{Fields: zeros(a)}, true
	case "look":
		v, ok := p.says[a.Check]
		return walk.Answer{Choice: v}, ok
	case "reading":
		v, ok := p.says[a.Check+":"+a.Reading.As]
		if !ok {
			v, ok = p.says[a.Check]
		}
		return walk.Answer{Typed: v}, ok
	}
	if fact, ok := strings.CutPrefix(a.ID, "fact "); ok {
		return p.fact(a, fact), true
	}
	v, ok := p.says[a.ID]
	if !ok && len(a.Choices) > 0 && a.ID != "referral" && a.ID != "retest failed" {
		return walk.Answer{Choice: a.Choices[0].ID}, true
	}
	switch a.Kind {
	case walk.Fill:
		return walk.Answer{Fields: strings.Split(v, "|")}, ok
	case walk.Write:
		return walk.Answer{Typed: v}, ok
	}
	return walk.Answer{Choice: v}, ok
}

func (p *player) fact(a *walk.Ask, id string) walk.Answer {
	if v, ok := p.says["fact "+id]; ok {
		return walk.Answer{Choice: v}
	}
	plant, _ := library(p.t).Set.Compose(p.says["plant"])
	for _, f := range plant.Facts {
		if f.ID == id {
			return walk.Answer{Choice: f.Is}
		}
	}
	return walk.Answer{}
}

// zeros fills a proving form with the tester proved and nothing found.
func zeros(a *walk.Ask) []string {
	var out []string
	for _, f := range a.Fields {
		if f.Number {
			out = append(out, "0")
		} else {
			out = append(out, "yes")
		}
	}
	return out
}

// closed is how the job ended.
func (p *player) closed() string {
	p.t.Helper()
	c := p.job.Closed()
	if c == nil {
		p.t.Fatalf("the job is still open at %q:\n%s", p.job.Ask().Title, strings.Join(p.seen, "\n"))
	}
	return c.As
}

func kinds(events []journal.Event) string {
	var out []string
	for _, e := range events {
		out = append(out, e.Kind)
	}
	return strings.Join(out, " ")
}
