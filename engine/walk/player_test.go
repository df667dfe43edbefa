package walk_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/measurements"
)

// morning is when every job of these tests is done.
var morning = time.Date(2026, 2, 3, 9, 0, 0, 0, time.UTC)

// player answers a job as a person at a plant would: the intake as told, looks
// and readings as a healthy plant gives them but for what is told, acts by
// doing them. Once something is repaired the plant is healthy.
type player struct {
	t    testing.TB
	lib  walk.Library
	job  *walk.Job
	tell map[string]string // ask, check or check:probe → answers, parted by " => " where they change
	seen []string          // every question with its answer, for a failure
	said []string
	asks []*walk.Ask
}

// engineer are the answers of an electrically competent person with a full kit,
// before any tree.
func engineer(plant, symptom string) map[string]string {
	return map[string]string{"danger": "none", "operator": "here", "hands": "electrical", "certificates": "unvented",
		"instruments": "all", "tester": "yes|2026-01-10", "told": "yes", "plant": plant, "symptom": symptom, "changed": "nothing", "zone-asks": "both"}
}

// with adds answers to others.
func with(says map[string]string, more map[string]string) map[string]string {
	for k, v := range more {
		says[k] = v
	}
	return says
}

func play(t testing.TB, says map[string]string) *player {
	t.Helper()
	return playWith(t, theHouse().lib, "gb", says)
}

func playWith(t testing.TB, lib walk.Library, jurisdiction string, says map[string]string) *player {
	t.Helper()
	job, _ := walk.Begin(lib, "job-1", "test", jurisdiction, morning)
	return &player{t: t, lib: lib, job: job, tell: says}
}

// run answers until the job is closed.
func (p *player) run() *player { p.t.Helper(); return p.until("over") }

// until answers until a question of this id stands, or one of this check.
func (p *player) until(id string) *player {
	p.t.Helper()
	return p.untilAsk(id, func(a *walk.Ask) bool { return a.ID == id || a.Check == id })
}

func (p *player) untilAsk(what string, found func(*walk.Ask) bool) *player {
	p.t.Helper()
	for range 300 {
		a := p.job.Ask()
		if a.Title == "" || a.ID == "" {
			p.t.Fatalf("a question without a title: %+v%s", a, p.story())
		}
		if found(a) {
			return p
		}
		if a.Kind == walk.Over {
			p.t.Fatalf("the job was closed before %s%s", what, p.story())
		}
		p.give(p.answer(a))
	}
	p.t.Fatalf("%s is never asked%s", what, p.story())
	return p
}

// story is what happened, for a failure.
func (p *player) story() string {
	a := p.job.Ask()
	return fmt.Sprintf("\nso far:\n%s\nnow: %s | %s | %s\n  %s", strings.Join(p.seen, "\n"), a.ID, a.Title, a.Check, strings.Join(a.Body, "\n  "))
}

// give hands an answer over and takes in what it gave.
func (p *player) give(ans walk.Answer) {
	p.t.Helper()
	if err := p.try(ans); err != nil {
		p.t.Fatalf("refused %+v: %v%s", ans, err, p.story())
	}
}

// try is give that may be refused.
func (p *player) try(ans walk.Answer) error {
	a := p.job.Ask()
	out, err := p.job.Answer(ans, "test", morning)
	if err != nil {
		return err
	}
	p.asks = append(p.asks, a)
	p.seen = append(p.seen, fmt.Sprintf("%s | %s | %s%s%s%s %s", a.ID, a.Title, ans.Choice, ans.Typed, strings.Join(ans.Fields, " "), ans.Command, ans.Rest))
	p.said = append(p.said, out.Say...)
	p.job.Apply(out.Events...)
	if a.ID == "repair" && ans.Choice == "done" {
		p.heal()
	}
	return nil
}

func (p *player) choose(choice string) *player {
	p.t.Helper()
	p.give(walk.Answer{Choice: choice})
	return p
}

func (p *player) typed(text string) *player {
	p.t.Helper()
	p.give(walk.Answer{Typed: text})
	return p
}

func (p *player) command(name, rest string) *player {
	p.t.Helper()
	p.give(walk.Answer{Command: name, Rest: rest})
	return p
}

// resume leaves the job and takes it up from its stored lines alone.
func (p *player) resume() *player {
	p.t.Helper()
	p.job = reread(p.t, p.lib, p.job.Events())
	p.job.Apply(p.job.TakeUp("test", morning))
	return p
}

// heal forgets what was wrong with the plant, unless it is told to stay.
func (p *player) heal() {
	for k := range p.tell {
		if strings.HasPrefix(k, "after ") {
			p.tell[strings.TrimPrefix(k, "after ")] = p.tell[k]
		} else if p.isCheck(k) {
			delete(p.tell, k)
		}
	}
}

func (p *player) isCheck(k string) bool {
	name, _, _ := strings.Cut(k, ":")
	return p.job.Check(name) != nil
}

// told gives the answer to a key, the next one where several are told.
func (p *player) told(key string) (string, bool) {
	v, ok := p.tell[key]
	if first, rest, more := strings.Cut(v, " => "); more {
		p.tell[key] = rest
		return first, true
	}
	return v, ok
}

func (p *player) answer(a *walk.Ask) walk.Answer {
	p.t.Helper()
	switch a.ID {
	case "acts", "prove":
		if a.Kind == walk.Fill {
			return walk.Answer{Fields: zeros(a)}
		}
		return walk.Answer{Choice: "done"}
	case "look":
		v, ok := p.told(a.Check)
		if !ok {
			v = p.soundLook(a)
		}
		return walk.Answer{Choice: v}
	case "reading":
		v, ok := p.told(a.Check + ":" + a.Reading.As)
		if !ok {
			v, ok = p.told(a.Check)
		}
		if !ok {
			v = p.soundReading(a)
		}
		return walk.Answer{Typed: v}
	}
	return p.plain(a)
}

// plain answers what is neither done nor measured: as told, the facts as the
// plant has them, or else the first choice. Where a job goes wrong it has to be told.
func (p *player) plain(a *walk.Ask) walk.Answer {
	p.t.Helper()
	v, ok := p.told(a.ID)
	if fact, is := strings.CutPrefix(a.ID, "fact "); is && !ok {
		for _, f := range theHouse().plant[p.tell["plant"]].Facts {
			if f.ID == fact {
				return walk.Answer{Choice: f.Is}
			}
		}
	}
	switch {
	case !ok && a.ID == "hand over":
		return walk.Answer{Choice: "yes"}
	case !ok && (len(a.Choices) == 0 || a.ID == "referral" || a.ID == "left open" || a.ID == "retest failed" || a.ID == "beyond" || a.ID == "pass"):
		p.t.Fatalf("no answer is told for %s%s", a.ID, p.story())
	case !ok:
		return walk.Answer{Choice: a.Choices[0].ID}
	case a.Kind == walk.Fill:
		return walk.Answer{Fields: strings.Split(v, "|")}
	case a.Kind == walk.Write:
		return walk.Answer{Typed: v}
	}
	return walk.Answer{Choice: v}
}

// soundLook is the answer of a healthy plant.
func (p *player) soundLook(a *walk.Ask) string {
	p.t.Helper()
	good, _, _ := strings.Cut(p.job.Check(a.Check).Good.Value, " or ")
	if good == "" { // a look that only tells kinds apart
		return a.Choices[0].ID
	}
	return good
}

// soundReadings are values of a healthy plant by scale; a dead neutral to earth
// or a released call is told apart in soundReading.
var soundReadings = map[string]string{"mains": "231", "neutral-earth": "0.3", "contact": "0.2", "core": "0.2", "winding": "3k",
	"drop": "0.1", "kept": "231", "pair": "12.1", "sense": "0.1", "stray": "0.2", "insulation": "200", "apart": "OL"}

func (p *player) soundReading(a *walk.Ask) string {
	p.t.Helper()
	c := p.job.Check(a.Check)
	v, ok := soundReadings[c.Check.Scale]
	switch {
	case a.Reading.As == "ne" || strings.HasPrefix(c.ID, "falls") || strings.HasPrefix(c.ID, "comes-and-goes"):
		return "0.4"
	case strings.HasPrefix(c.ID, "call-free") || strings.HasPrefix(c.ID, "call-comes-and-goes"):
		return "12" // the board's own sense voltage, with the contact free
	case c.ID == "pair-drop":
		return "0" // a sound core loses next to nothing
	case c.Quantity == measurements.Celsius:
		return "25"
	case !ok:
		p.t.Fatalf("no healthy value of %s%s", c.ID, p.story())
	}
	return v
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
func (p *player) closed() *journal.Closed {
	p.t.Helper()
	c := p.job.Closed()
	if c == nil {
		p.t.Fatalf("the job is still open%s", p.story())
	}
	return c
}

// read lists the checks that were read for these purposes, each once.
func (p *player) read(purposes ...string) string {
	var out []string
	for _, e := range p.job.Events() {
		if b, ok := e.Body.(*journal.Read); ok && slices.Contains(purposes, b.Purpose) && (len(out) == 0 || out[len(out)-1] != b.Check) {
			out = append(out, b.Check)
		}
	}
	return strings.Join(out, ", ")
}

// count counts the acts of a kind; the empty kind is all.
func (p *player) count(do string) int {
	n := 0
	for _, e := range p.job.Events() {
		if b, ok := e.Body.(*journal.Acted); ok && (do == "" || b.Act.Do == do) {
			n++
		}
	}
	return n
}

// body is the text of the question that stands.
func (p *player) body() string { return strings.Join(p.job.Ask().Body, "\n") }

// offered lists the ids of the choices, or of the commands.
func offered(choices []walk.Choice) []string {
	var out []string
	for _, c := range choices {
		out = append(out, c.ID)
	}
	return out
}

// reread writes events as lines, reads the lines back and resumes from them.
func reread(t testing.TB, lib walk.Library, events []journal.Event) *walk.Job {
	t.Helper()
	job, mismatches := walk.Resume(lib, decoded(t, lines(t, events)))
	if len(mismatches) > 0 {
		t.Fatalf("replay gives other verdicts: %v", mismatches)
	}
	return job
}
