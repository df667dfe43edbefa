// Package walk takes a person through a job: from the first question to a
// proven repair. A job is a list of events; everything it knows is derived from
// them. Start with Begin or Resume, show Ask, give the answer to Answer, store
// the events it returns, then Apply them. It does no I/O and reads no clock.
package walk

import (
	"time"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/prove"
)

// Library is what a job works with: the trees it began with, the instruments
// the operator owns, and the build that runs.
type Library struct {
	Set   *trees.Set
	Kit   measurements.Kit
	Build string
}

// Job is one callout. It is not safe for several goroutines at once.
type Job struct {
	lib    Library
	events []journal.Event
	world  *safety.World
	mind   *mind
	prover *prove.Prover
	edges  trees.Edges
	plants map[string]*trees.Plant
	graphs map[string]*trees.Graph
	aside  *stage // a question about the answer just given; never stored
}

// Begin opens a job: the first event, to be stored before anything is shown.
func Begin(lib Library, id, by, jurisdiction string, at time.Time) (*Job, journal.Event) {
	e := journal.Event{N: 1, At: at, By: by, Kind: journal.KindOpened, Body: &journal.Opened{Format: journal.Format, Job: id,
		Build: lib.Build, Jurisdiction: jurisdiction, Trees: lib.Set.Hash(), Safety: lib.Set.SafetyHash()}}
	return open(lib, []journal.Event{e}), e
}

// Resume takes a job up from its events. Mismatches lists readings whose
// recorded verdict these trees no longer give.
func Resume(lib Library, events []journal.Event) (j *Job, mismatches []string) {
	j = open(lib, events)
	return j, j.mind.mismatches
}

func open(lib Library, events []journal.Event) *Job {
	lib.Set = lib.Set.Filled(lib.Set.Jurisdictions[where(events)])
	j := &Job{lib: lib, prover: prove.New(), edges: trees.Edges{}, plants: map[string]*trees.Plant{}, graphs: map[string]*trees.Graph{}}
	j.events = events
	j.derive()
	j.rebuild()
	return j
}

// where is the jurisdiction a job was opened in.
func where(events []journal.Event) string {
	for _, e := range events {
		if b, ok := e.Body.(*journal.Opened); ok {
			return b.Jurisdiction
		}
	}
	return ""
}

// Events are the job so far. They are not to be changed.
func (j *Job) Events() []journal.Event { return j.events }

// Closed says how the job ended; nil while it is open.
func (j *Job) Closed() *journal.Closed { return j.mind.closed }

// Apply takes in events that have been stored.
func (j *Job) Apply(events ...journal.Event) {
	if len(events) > 0 {
		j.aside = nil
	}
	for _, e := range events {
		before := j.mind.plant
		j.events = append(j.events, e)
		if j.world != nil {
			j.world.Apply(e)
		}
		if e.Kind == journal.KindRetracted { // it changes what came before
			j.derive()
		} else {
			j.take(e)
		}
		if j.world == nil || j.mind.plant != before {
			j.rebuild()
		}
	}
}

// rebuild makes the world again from all events: once, when the plant is known.
func (j *Job) rebuild() {
	j.world = nil
	if j.mind.plant == nil {
		return
	}
	j.world = safety.New(j.mind.plant)
	for _, e := range j.events {
		j.world.Apply(e)
	}
}

// context is where something is done now, by whose hands, under which rules.
func (j *Job) context() safety.Context {
	return safety.Context{Plant: j.mind.plant, Jurisdiction: j.jurisdiction(), Hands: j.mind.hands, Kit: j.lib.Kit}
}

func (j *Job) jurisdiction() *trees.Jurisdiction { return j.lib.Set.Jurisdictions[j.mind.jurisdiction] }

// Ask is the question that stands now.
func (j *Job) Ask() *Ask {
	_, a := j.current()
	if a.Kind != Over {
		a.Commands = j.commands(a)
	}
	return a
}

// Outcome is what an answer gave: events to store, in order, and words to say.
type Outcome struct {
	Events  []journal.Event
	Say     []string
	Reading *Fallen // where a reading fell; nil for other answers
}

// Fallen is a reading as it falls into the ranges of its question: in the
// trade's writing, and widened by the meter's error, in SI units or °C.
type Fallen struct {
	Words  string
	Within measurements.Interval
}

// Answer takes an answer to the question that stands. A *Refused error says why
// nothing was recorded. The events are to be stored, then applied.
func (j *Job) Answer(a Answer, by string, at time.Time) (Outcome, error) {
	s, ask := j.current()
	var t taken
	var err error
	switch {
	case ask.Kind == Over:
		err = &Refused{"this job is closed; start another"}
	case a.Command != "":
		t, err = j.command(ask, a)
	default:
		t, err = s.take(j, a)
	}
	if err != nil {
		return Outcome{}, err
	}
	shownWith(ask, t.bodies)
	return Outcome{j.number(t.bodies, by, at), t.say, t.reading}, nil
}

func (j *Job) number(bodies []any, by string, at time.Time) []journal.Event {
	var out []journal.Event
	for i, b := range bodies {
		out = append(out, journal.Event{N: len(j.events) + 1 + i, At: at, By: by, Kind: journal.KindOf(b), Body: b})
	}
	return out
}

// shownWith notes in the first answer among the events which cautions stood
// above its question.
func shownWith(ask *Ask, bodies []any) {
	for _, b := range bodies {
		if a, ok := b.(*journal.Answered); ok {
			a.Cautions = ids(ask.Cautions)
			return
		}
	}
}
