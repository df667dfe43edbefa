package rehearse

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// told is what a person says who walks a job with the same answers as a
// rehearsal: the intake, and the readings of the simulated plant.
type person struct {
	t   testing.TB
	job *walk.Job
	b   *bench
	sub subject
	say map[string]walk.Answer
}

var intake = map[string]walk.Answer{
	"danger": {Choice: "none"}, "operator": {Choice: "here"}, "hands": {Choice: "electrical"}, "certificates": {Choice: "unvented"},
	"instruments": {Typed: "all"}, "tester": {Fields: []string{"yes", "2026-01-10"}}, "told": {Choice: "yes"}, "changed": {Choice: "nothing"},
	"confirm": {Choice: "take"},
}

// ends are the questions at which a tree has come to an end.
var ends = []string{"result", "repair", "referral", "pass", "handover", "leave"}

// walkJob walks a real job to the end of the tree and gives its acts and
// checks in order, and where the last reading led.
func (p *person) walkJob() (did []string, led string) {
	for range 400 {
		a := p.job.Ask()
		if slices.Contains(ends, a.ID) {
			return p.done()
		}
		ans, ok := p.answer(a)
		if !ok {
			p.t.Fatalf("no answer for %s: %s", a.ID, a.Title)
		}
		out, err := p.job.Answer(ans, "test", time.Time{})
		if err != nil {
			p.t.Fatalf("%s refused: %v", a.ID, err)
		}
		p.job.Apply(out.Events...)
	}
	p.t.Fatal("the job does not end")
	return nil, ""
}

func (p *person) answer(a *walk.Ask) (walk.Answer, bool) {
	switch {
	case a.ID == "beyond" || a.ID == "again":
		for _, choice := range []string{"dead", "on", "other", "leave", "refer"} {
			if slices.ContainsFunc(a.Choices, func(c walk.Choice) bool { return c.ID == choice }) {
				return walk.Answer{Choice: choice}, true
			}
		}
	case a.ID == "acts":
		return walk.Answer{Choice: "done"}, true
	case a.Kind == walk.Fill && a.ID != "tester":
		ans := walk.Answer{}
		for _, f := range a.Fields {
			ans.Fields = append(ans.Fields, map[bool]string{true: "yes", false: "0"}[f.YesNo])
		}
		return ans, true
	case a.ID == "look" || a.ID == "reading":
		return p.reads(a), true
	case strings.HasPrefix(a.ID, "fact "):
		for _, f := range p.b.plant.Facts {
			if "fact "+f.ID == a.ID {
				return walk.Answer{Choice: f.Is}, true
			}
		}
	case a.ID == "lost digit" || a.ID == "slip":
		return walk.Answer{Choice: a.Choices[len(a.Choices)-1].ID}, true
	}
	ans, ok := p.say[a.ID]
	if !ok {
		ans, ok = intake[a.ID]
	}
	return ans, ok
}

// reads answers a check as the simulated plant does.
func (p *person) reads(a *walk.Ask) walk.Answer {
	c := p.job.Check(a.Check)
	got, err := p.sub.answer(c, nil, standing{})
	if err != nil {
		p.t.Fatal(err)
	}
	if a.Reading == nil {
		return walk.Answer{Choice: got.answer}
	}
	for i, probe := range c.Probes {
		if probe.As == a.Reading.As {
			kit := measurements.DefaultKit()
			for _, o := range walk.Options(kit, c, probe) {
				if o.Mode == a.Reading.Mode && o.Meter.Name == a.Reading.Meter {
					return walk.Answer{Typed: shows(o.Spec, got.values[i], got.moving, nil).String()}
				}
			}
		}
	}
	p.t.Fatalf("%s has no probe %q", a.Check, a.Reading.As)
	return walk.Answer{}
}

func (p *person) done() (did []string, led string) {
	for _, e := range p.job.Events() {
		switch b := e.Body.(type) {
		case *journal.Acted:
			did = append(did, actText(b.Act))
		case *journal.Read:
			if b.Purpose != journal.ForConfirm {
				led = b.Leads
			}
			if line := "read " + b.Check; len(did) == 0 || did[len(did)-1] != line {
				did = append(did, line)
			}
		case *journal.Skipped:
			led = ""
		}
	}
	return did, led
}

func actText(a journal.Act) string { return fmt.Sprintf("%s %s %g", a.Do, a.On, a.Minutes) }

// doneIn gives the acts and checks of a rehearsed walk.
func doneIn(n *node) []string {
	var out []string
	for ; n != nil; n = n.before {
		for _, body := range slices.Backward(n.bodies) {
			switch b := body.(type) {
			case *journal.Acted:
				out = append(out, actText(b.Act))
			case *journal.Read:
				if line := "read " + b.Check; len(out) == 0 || out[len(out)-1] != line {
					out = append(out, line)
				}
			}
		}
	}
	slices.Reverse(out)
	return out
}

// others are the intake of other hands, by the name a rehearsal gives them.
var others = map[string]map[string]walk.Answer{
	"engineer":  {},
	"installer": {"hands": {Choice: "installer"}},
	"apprentice, watched": {"hands": {Choice: "apprentice"}, "certificates": {Choice: "none"}, "watched": {Choice: "yes"},
		"supervisor": {Typed: "A. Supervisor"}},
	"engineer, by phone": {"operator": {Choice: "phone"}},
	"householder":        {"hands": {Choice: "householder"}},
}

// A rehearsal is worth what it shares with a job: the same acts, the same
// checks in the same order, the same end, whoever walks it.
func TestWalkIsThatOfARealJob(t *testing.T) {
	t.Parallel()
	kit := measurements.DefaultKit()
	for _, p := range append(Everyone(kit), Engineer(kit)) {
		if say, ok := others[p.Name]; ok {
			t.Run(p.Name, func(t *testing.T) { t.Parallel(); besideJobs(t, p, say) })
		}
	}
}

func besideJobs(t *testing.T, p Person, say map[string]walk.Answer) {
	set, m := embedded(t), scatter(8)
	signs := []*trees.Sign{sign("controller-blank"), sign("no-heat-demand"), sign("cylinder-stays-cold")}
	for _, plant := range []string{"millrace-small", "millrace-spur"} {
		r, err := run(set, Options{Plants: []string{plant}, Persons: []Person{p}}, func(*trees.Set, *trees.Plant) (model, error) { return m, nil }, signs)
		if err != nil {
			t.Fatal(err)
		}
		composed, _ := set.Compose(plant)
		for _, c := range r.Cases {
			job, _ := walk.Begin(walk.Library{Set: set, Kit: measurements.DefaultKit(), Build: "test"}, "job", "test", "gb", time.Time{})
			who := &person{t, job, &bench{plant: composed}, m.subject(c.fault, nil), maps.Clone(say)}
			who.say["plant"], who.say["symptom"] = walk.Answer{Choice: plant}, walk.Answer{Choice: c.Symptom}
			did, led := who.walkJob()
			if mine := doneIn(c.node); !slices.Equal(mine, did) {
				t.Errorf("%s %s %s: the rehearsal does\n  %s\nand the job\n  %s", plant, c.Symptom, c.Fault, strings.Join(mine, "\n  "), strings.Join(did, "\n  "))
			}
			if strings.HasPrefix(led, "go ") { // passed on with the step still to take
				led = "refer " + strings.TrimPrefix(c.End, "refer ")
			}
			if led != "" && led != c.End {
				t.Errorf("%s %s %s: the rehearsal ends at %s, the job at %s", plant, c.Symptom, c.Fault, c.End, led)
			}
		}
	}
}
