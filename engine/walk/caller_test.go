package walk_test

import (
	"fmt"
	"math/rand"
	"runtime/debug"
	"slices"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/monitor"
	"faultwalk/engine/walk"
)

// caller answers whatever a job asks, by chance. A steady one does what a person
// at a plant would who slips nowhere; the others slip, change their mind and
// talk nonsense as well.
type caller struct {
	*rand.Rand
	house   *house
	job     *walk.Job
	steady  bool
	plant   string
	symptom string
	given   int
	fresh   bool // the last answer was recorded, so no question stands aside
	log     []string
	watch   *monitor.Monitor // nil until the plant is known
	watched string           // the plant it watches
	acted   bool
	unsafe  []string
}

// maxTalk is how many answers a caller gives before it wants an end, and
// maxEnd how many more it may then take.
const (
	maxTalk = 250
	maxEnd  = 80
)

func newCaller(seed int64, steady bool) *caller {
	h := theHouse()
	c := &caller{Rand: rand.New(rand.NewSource(seed)), house: h, steady: steady}
	c.plant, c.symptom = h.plants[int(seed)%len(h.plants)], h.symptoms[int(seed)/len(h.plants)%len(h.symptoms)]
	c.job, _ = walk.Begin(h.lib, fmt.Sprint("job-", seed), "test", "gb", morning)
	return c
}

// one is true once in n times, on average; for a steady caller never.
func (c *caller) one(n int) bool { return !c.steady && c.Intn(n) == 0 }

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
			if wrong := c.resume(a); wrong != "" {
				return wrong
			}
			continue
		}
		c.asked(a)
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
	c.fresh = false
	before := len(c.job.Events())
	out, err := c.job.Answer(ans, "test", morning)
	if err != nil {
		c.log[len(c.log)-1] += " refused: " + err.Error()
	}
	switch {
	case len(c.job.Events()) != before:
		return "an answer was recorded before it was stored: " + c.last()
	case err == nil:
		for i, e := range out.Events {
			if e.N != before+1+i {
				return fmt.Sprintf("event %d was numbered %d: %s", before+1+i, e.N, c.last())
			}
		}
		c.apply(out.Events...)
		c.fresh = len(out.Events) > 0
		return ""
	case len(out.Events) > 0:
		return fmt.Sprintf("refused with %v and gave events: %s", err, c.last())
	case ans.Command == "" && slices.ContainsFunc(a.Choices, func(x walk.Choice) bool { return x.ID == ans.Choice }):
		return fmt.Sprintf("offered and refused (%s): %s", err, c.last())
	}
	if next := c.job.Ask(); next.ID != a.ID || next.Title != a.Title {
		return fmt.Sprintf("refused with %v and asked %q next: %s", err, next.Title, c.last())
	}
	return ""
}

// resume leaves the job and takes it up from its events alone: they must give
// the question that stood.
func (c *caller) resume(stood *walk.Ask) string {
	c.log = append(c.log, "resumed")
	c.job = walk.ResumeLike(c.job, slices.Clone(c.job.Events()))
	if a := c.job.Ask(); c.fresh && (a.ID != stood.ID || a.Title != stood.Title) {
		return fmt.Sprintf("%q stood, and after resuming %q does: %s", stood.Title, a.Title, c.last())
	}
	c.fresh = false
	c.apply(c.job.TakeUp("test", morning))
	return ""
}

// apply takes events in, and has the monitor see them.
func (c *caller) apply(events ...journal.Event) {
	c.job.Apply(events...)
	for _, e := range events {
		switch b := e.Body.(type) {
		case *journal.Acted:
			c.acted = true
		case *journal.Answered:
			if b.Ask == "plant" && b.Choice != c.watched && b.Choice != "none" {
				c.watchPlant(b.Choice)
				continue // it has seen this event among the others
			}
		}
		if c.watch != nil {
			c.found("done", c.watch.See(e))
		}
	}
}

// watchPlant has a new monitor see the job so far, once the plant is chosen or
// chosen again: what was done to one plant was not done to another.
func (c *caller) watchPlant(id string) {
	if c.acted {
		c.unsafe = append(c.unsafe, "the plant was changed after something was done to it\n"+c.last())
	}
	c.watched, c.watch = id, c.house.monitor(id)
	for _, e := range c.job.Events() {
		c.watch.See(e)
	}
}

// asked has the monitor judge what a question sends hands to do.
func (c *caller) asked(a *walk.Ask) {
	if c.watch == nil || a.Check == "" {
		return
	}
	b := &journal.Read{Check: a.Check, Purpose: journal.ForTree, Answer: "seen"}
	if a.Reading != nil {
		b.Answer, b.Values = "", []journal.Value{{As: a.Reading.As, Mode: a.Reading.Mode}}
	}
	c.found("asked", c.watch.Asked(b))
}

func (c *caller) found(how string, findings []monitor.Finding) {
	for _, f := range findings {
		c.unsafe = append(c.unsafe, fmt.Sprintf("%s: %s\n%s", how, f.What, c.around()))
	}
}

// around is the last events of the job, for a failure.
func (c *caller) around() string {
	var out []string
	events := c.job.Events()
	for _, e := range events[max(0, len(events)-12):] {
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
