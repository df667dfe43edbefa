// Package monitor says what was unsafe in a job, from nothing but its events
// and the wiring of the plant. It is the independent judge of rehearsals and
// of tests: it shares no code with what decides, plans or keeps the state of a
// job, and derives reach, isolation and proof by itself. Start with Judge, or with
// New where a job is judged while it goes on.
package monitor

import (
	"fmt"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// Finding is one thing that was done or asked and was unsafe: the number of
// the event it was recorded in, and what was wrong in one line.
type Finding struct {
	Event int
	What  string
}

// Judge goes through the events of a job once and reports what was unsafe, in
// the order of the events. What an event adds does not depend on later ones,
// so a judgement of a whole job holds for each of its beginnings too.
//
// checks and causes find what a reading or a repair names, on the same plant,
// and give nil for what they do not know: that is a finding as well, since
// nobody can then say where the hands were. Retractions undo nothing here.
func Judge(p *trees.Plant, checks func(id string) *trees.BoundCheck, causes func(id string) *trees.BoundCause, events []journal.Event) []Finding {
	m := New(p, checks, causes)
	var out []Finding
	for _, e := range events {
		out = append(out, m.See(e)...)
	}
	return out
}

// Monitor is one judgement on its way through the events of a job.
type Monitor struct {
	*wiring
	*state
	checks   func(id string) *trees.BoundCheck
	causes   func(id string) *trees.BoundCause
	event    int
	findings []Finding
}

// New begins a judgement; see Judge for what it needs.
func New(p *trees.Plant, checks func(id string) *trees.BoundCheck, causes func(id string) *trees.BoundCause) *Monitor {
	return &Monitor{wiring: newWiring(p), state: newState(), checks: checks, causes: causes}
}

// Clone gives a judgement that goes on from here by itself, where a job could go
// on in several ways.
func (m *Monitor) Clone() *Monitor {
	c := *m
	c.wiring, c.state, c.findings = m.wiring.clone(), m.state.clone(), nil
	return &c
}

// See takes in the next event and reports what was unsafe in it.
func (m *Monitor) See(e journal.Event) []Finding {
	m.event, m.findings = e.N, nil
	m.judge(e.Body)
	m.takeIn(e.Body)
	return m.findings
}

// Asked reports what would be unsafe if this happened now, and takes nothing
// in: a question alone sends somebody's hands there.
func (m *Monitor) Asked(body any) []Finding {
	m.findings = nil
	m.judge(body)
	return m.findings
}

func (m *Monitor) unsafe(format string, args ...any) {
	m.findings = append(m.findings, Finding{m.event, fmt.Sprintf(format, args...)})
}

func (m *Monitor) judge(body any) {
	switch b := body.(type) {
	case *journal.Acted:
		m.judgeAct(b)
	case *journal.Read:
		m.judgeRead(b)
	case *journal.Repaired:
		m.judgeRepair(b)
	case *journal.Closed:
		m.judgeClose(b)
	}
}

// takeIn lets an event change the state.
func (m *Monitor) takeIn(body any) {
	switch b := body.(type) {
	case *journal.Handed:
		m.hands = b.Hands
		clear(m.fixed) // other hands may be able to
		m.forget()
	case *journal.Resumed:
		m.forget()
	case *journal.Acted:
		m.done(b)
	case *journal.Read:
		m.once[b.Check] = true
		m.called(b.Check)
	case *journal.Closed:
		m.closed = true
	}
}

// forget is a change of hands or a pause: every proof and every wait is void,
// and a padlock counts again once somebody has been to it.
func (m *Monitor) forget() {
	clear(m.proved)
	clear(m.locked)
	clear(m.rested)
	for call := range m.stopping {
		m.stopping[call] = 0
	}
	m.follow(m.state)
}
