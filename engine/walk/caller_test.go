package walk_test

import (
	"fmt"
	"math/rand"
	"runtime/debug"
	"slices"
	"strings"
	"sync"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// house is the embedded trees, loaded once and read by every caller: each
// plant, and each symptom bound to it.
type house struct {
	lib      walk.Library
	plants   []string
	symptoms []string
	plant    map[string]*trees.Plant
	graphs   map[string][]*trees.Graph
}

var theHouse = sync.OnceValue(func() *house {
	set, problems := trees.Embedded()
	if len(problems) > 0 {
		panic(problems.Format(20))
	}
	h := &house{lib: walk.Library{Set: set, Kit: measurements.DefaultKit(), Build: "test"}, plant: map[string]*trees.Plant{}, graphs: map[string][]*trees.Graph{}}
	for id := range set.Plants {
		h.plants = append(h.plants, id)
	}
	for id := range set.Symptoms {
		h.symptoms = append(h.symptoms, id)
	}
	slices.Sort(h.plants)
	slices.Sort(h.symptoms)
	for _, id := range h.plants {
		h.plant[id], _ = set.Compose(id)
		for _, symptom := range h.symptoms {
			if g, _ := set.Bind(symptom, h.plant[id]); g != nil {
				h.graphs[id] = append(h.graphs[id], g)
			}
		}
	}
	return h
})

// caller answers whatever a job asks, by chance. Steady is how often it does
// what a person at a sound plant would: 1 always, 0 never.
type caller struct {
	*rand.Rand
	house   *house
	job     *walk.Job
	steady  float64
	plant   string
	symptom string
	given   int
	log     []string
}

// maxTalk is how many answers a caller gives before it wants an end, and
// maxEnd how many more it may then take.
const (
	maxTalk = 250
	maxEnd  = 80
)

func newCaller(seed int64, steady float64) *caller {
	h := theHouse()
	c := &caller{Rand: rand.New(rand.NewSource(seed)), house: h, steady: steady}
	c.plant, c.symptom = h.plants[int(seed)%len(h.plants)], h.symptoms[int(seed)/len(h.plants)%len(h.symptoms)]
	c.job, _ = walk.Begin(h.lib, fmt.Sprint("job-", seed), "test", "gb", morning)
	return c
}

// one is true once in n times, on average.
func (c *caller) one(n int) bool { return c.steady < 1 && c.Intn(n) == 0 }

func (c *caller) any(words ...string) string { return words[c.Intn(len(words))] }

// call answers until the job is closed. It says what went wrong, if anything
// did: a question without a title, a refusal that recorded something, a panic,
// a job that does not end.
func (c *caller) call() (wrong string) {
	defer func() {
		if r := recover(); r != nil {
			wrong = fmt.Sprintf("panic: %v\n%s\n%s", r, debug.Stack(), c.last())
		}
	}()
	for c.given < maxTalk+maxEnd {
		a := c.job.Ask()
		if a.Title == "" || a.ID == "" {
			return fmt.Sprintf("a question without a title: %+v", a)
		}
		if a.Kind == walk.Over {
			return ""
		}
		if c.given > 20 && c.one(60) {
			c.resume()
			continue
		}
		if wrong := c.give(a, c.answer(a)); wrong != "" {
			return wrong
		}
	}
	return "the job does not end: " + c.last()
}

func (c *caller) last() string { return strings.Join(c.log[max(0, len(c.log)-25):], "\n") }

// give hands one answer over, and holds a refusal to leave no trace.
func (c *caller) give(a *walk.Ask, ans walk.Answer) string {
	c.given++
	c.log = append(c.log, fmt.Sprintf("%s | %s | %+v", a.ID, a.Title, ans))
	before := len(c.job.Events())
	out, err := c.job.Answer(ans, "test", morning)
	switch {
	case len(c.job.Events()) != before:
		return "an answer was recorded before it was stored: " + c.last()
	case err == nil:
		for i, e := range out.Events {
			if e.N != before+1+i {
				return fmt.Sprintf("event %d was numbered %d: %s", before+1+i, e.N, c.last())
			}
		}
		c.job.Apply(out.Events...)
		return ""
	case len(out.Events) > 0:
		return fmt.Sprintf("refused with %v and gave events: %s", err, c.last())
	}
	if next := c.job.Ask(); next.ID != a.ID || next.Title != a.Title {
		return fmt.Sprintf("refused with %v and asked %q next: %s", err, next.Title, c.last())
	}
	return ""
}

// resume leaves the job and takes it up from its events alone.
func (c *caller) resume() {
	c.log = append(c.log, "resumed")
	c.job, _ = walk.Resume(c.house.lib, slices.Clone(c.job.Events()))
	if c.job.Closed() == nil {
		c.job.Apply(c.job.TakeUp("test", morning))
	}
}

// answer is what the caller says to a question.
func (c *caller) answer(a *walk.Ask) walk.Answer {
	switch {
	case c.given >= maxTalk:
		return c.end(a)
	case c.one(10):
		return c.command(a)
	case c.one(40):
		return walk.Answer{Choice: "no such choice", Typed: "  ", Fields: []string{"perhaps"}}
	}
	switch a.Kind {
	case walk.Fill:
		return walk.Answer{Fields: c.fields(a)}
	case walk.Measure:
		return walk.Answer{Typed: c.reading(a)}
	case walk.Write:
		return walk.Answer{Typed: c.words(a)}
	}
	return walk.Answer{Choice: c.choice(a)}
}

// usual is what a person mostly answers to the questions before any tree; to
// be danger-free and competent leads furthest.
func (c *caller) usual(ask string) string {
	switch ask {
	case "danger":
		return "none"
	case "operator":
		return "here"
	case "hands":
		return "electrical"
	case "certificates":
		return "unvented refrigerant"
	case "plant":
		return c.plant
	case "symptom":
		return c.symptom
	case "acts":
		return "done"
	case "confirm":
		return "take"
	case "leave":
		return "back"
	}
	for _, f := range c.house.plant[c.plant].Facts {
		if ask == "fact "+f.ID {
			return f.Is
		}
	}
	return ""
}

func (c *caller) choice(a *walk.Ask) string {
	usual := c.usual(a.ID)
	rare := 8
	if a.ID == "danger" || a.ID == "plant" || strings.HasPrefix(a.ID, "fact ") {
		rare = 30
	}
	if usual != "" && !c.one(rare) {
		return usual
	}
	if a.ID == "result" && !c.one(3) {
		return a.Choices[0].ID
	}
	if good := c.healthy(a.Check); good != "" && !c.one(2) {
		return good
	}
	return a.Choices[c.Intn(len(a.Choices))].ID
}

// healthy is the answer a sound plant gives to a look, which leads on to the
// next step more often than others do.
func (c *caller) healthy(check string) string {
	for _, g := range c.house.graphs[c.plant] {
		if b := g.Check(check); b != nil && len(b.Answers) > 0 {
			good, _, _ := strings.Cut(b.Good.Value, " or ")
			return good
		}
	}
	return ""
}

func (c *caller) words(a *walk.Ask) string {
	switch {
	case a.ID == "supervisor":
		return c.any("the senior engineer", "the senior engineer", "none", "")
	case c.one(6):
		return c.any("1", "2 3", "1,4", "none", "9", "", "multimeter two-pole")
	}
	return "all"
}

// fields fills a form: mostly zeros with the tester proved.
func (c *caller) fields(a *walk.Ask) []string {
	if a.ID == "tester" {
		if c.one(8) {
			return []string{c.any("no", "perhaps"), c.any("", "not known")}
		}
		return []string{"yes", "2026-01-10"}
	}
	var out []string
	for _, f := range a.Fields {
		switch {
		case !f.Number && c.one(30):
			out = append(out, c.any("no", "perhaps"))
		case !f.Number:
			out = append(out, "yes")
		case c.one(120), len(a.Fields) == 1 && c.one(2):
			out = append(out, c.any("118", "231", "23", "6", "5.1", "OL", "volts", "4-90 moving"))
		default:
			out = append(out, c.any("0", "0", "0", "0.3", "4.9"))
		}
	}
	if c.one(30) {
		out = out[:len(out)/2]
	}
	return out
}

// reading types a value: what a meter on such a point could show, or nonsense.
func (c *caller) reading(a *walk.Ask) string {
	if c.one(12) {
		return c.any("", "hot", "12 kg", "-0.3", ">20M", "<1", "1e9")
	}
	switch a.Reading.Quantity {
	case "ac volts":
		return c.any("0", "2.5", "0.2", "23", "52", "100", "119", "180", "215", "231", "231", "231", "240", "240", "255", "190-240 moving", "0.4", "0.4")
	case "celsius":
		return c.any("52", "20.5", "23", "0.2", "100")
	case "dc volts":
		return c.any("0", "2.5", "12.1", "12.1", "23", "-12")
	}
	return c.any("0.2", "0.2", "0.3", "2.5", "23", "231", "3k", "3k", "9k8", "OL", "OL", ">20M", "52M")
}

// command says something beside the question.
func (c *caller) command(a *walk.Ask) walk.Answer {
	name := "fly"
	if len(a.Commands) > 0 && !c.one(20) {
		name = a.Commands[c.Intn(len(a.Commands))].ID
	}
	if name == "give up" && !c.one(8) || name == "hand over" && !c.one(2) {
		name = "back"
	}
	ans := walk.Answer{Command: name}
	switch name {
	case "note":
		ans.Rest = c.any("", "the cupboard is wet")
	case "skip", "give up":
		ans.Rest = c.any("", "it was late")
	case "reading":
		ans.Rest = c.early()
	}
	return ans
}

// early is a reading known beforehand, of any check of this plant.
func (c *caller) early() string {
	graphs := c.house.graphs[c.plant]
	g := graphs[c.Intn(len(graphs))]
	b := g.Steps[g.Order[c.Intn(len(g.Order))]].Check
	if len(b.Answers) > 0 {
		return b.ID + "=" + b.Answers[c.Intn(len(b.Answers))].ID
	}
	return b.ID + "=" + c.any("231", "0", "0.4/231", "240/240/0.3", "OL", "3k", "hot", "1/2/3/4")
}

// end wants the job closed and does what is asked for that.
func (c *caller) end(a *walk.Ask) walk.Answer {
	for _, cmd := range a.Commands {
		if cmd.ID == "give up" {
			return walk.Answer{Command: "give up", Rest: "enough"}
		}
	}
	switch a.Kind {
	case walk.Fill:
		var out []string
		for _, f := range a.Fields {
			if f.Number {
				out = append(out, "0")
			} else {
				out = append(out, "yes")
			}
		}
		return walk.Answer{Fields: out}
	case walk.Measure:
		return walk.Answer{Typed: c.reading(a)}
	case walk.Write:
		return walk.Answer{Typed: "all"}
	}
	if usual := c.usual(a.ID); usual != "" {
		return walk.Answer{Choice: usual}
	}
	for _, want := range []string{"refer", "isolated", "close", "leave"} {
		for _, x := range a.Choices {
			if x.ID == want {
				return walk.Answer{Choice: want}
			}
		}
	}
	return walk.Answer{Choice: a.Choices[c.Intn(len(a.Choices))].ID}
}

// around prints the events near one, for a failure.
func around(events []journal.Event, n int) string {
	var out []string
	for _, e := range events[max(0, n-9):min(len(events), n+3)] {
		out = append(out, "  "+eventLine(e))
	}
	return strings.Join(out, "\n")
}

func eventLine(e journal.Event) string {
	switch b := e.Body.(type) {
	case *journal.Acted:
		var off []string
		for _, f := range b.Form {
			if f.Value != 0 {
				off = append(off, f.Name+" "+f.Typed)
			}
		}
		return fmt.Sprintf("%d %s %s %s %v", e.N, b.Act.Do, b.Act.On, b.Outcome, off)
	case *journal.Read:
		return fmt.Sprintf("%d read %s (%s) %v %s", e.N, b.Check, b.Purpose, b.Values, b.Answer)
	case *journal.Handed:
		return fmt.Sprintf("%d handed %+v", e.N, b.Hands)
	}
	return fmt.Sprintf("%d %s %+v", e.N, e.Kind, e.Body)
}
