package walk

import (
	"fmt"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// mind is what is known and concluded: derived from the events that were not
// retracted, thrown away and derived again after each.
type mind struct {
	jurisdiction string
	answers      map[string]*journal.Answered // by ask, the last one
	hands        journal.Hands
	handing      bool   // hands are being asked for
	closeUp      string // how the plant is closed up before other hands take over: back, safe; or empty
	plant        *trees.Plant
	unlike       map[string]string // plant → the fact that disagreed, in words
	unsure       bool              // a fact was not known
	graph        *trees.Graph
	walked       []*trees.Graph // of every sign so far; the last is graph
	epoch        int
	now          map[string]*reading // of this epoch, by check instance
	place        trees.Target
	trail        []passed
	skipped      map[string]string // step → why
	meters       map[string]int    // probe → how often another meter was asked for
	retests      []*retest
	shown        map[string]bool // cautions
	finish       *finish
	closed       *journal.Closed
	mismatches   []string
}

// reading is what one check gave, the latest of its readings in an epoch.
type reading struct {
	events  []int // its last is the whole reading, those before it single probes
	check   *trees.BoundCheck
	step    string
	purpose string
	values  map[string]journal.Value
	answer  string
	tried   int // times it was measured again because it decided nothing
	body    *journal.Read
}

// passed is one step gone through: by which reading, to where.
type passed struct {
	graph  *trees.Graph
	step   *trees.Bound // nil: a reading that ends the job wherever it is met
	read   *reading     // nil: skipped
	branch int          // -1: skipped
	to     trees.Target
}

// retest is one check that must read as healthy after a repair.
type retest struct {
	check   *trees.BoundCheck
	purpose string
}

// finish is how the job is about to end.
type finish struct {
	as       string
	words    string
	referral *trees.Referral
}

// derive builds the mind from the events.
func (j *Job) derive() {
	m := &mind{answers: map[string]*journal.Answered{}, now: map[string]*reading{}, skipped: map[string]string{},
		meters: map[string]int{}, shown: map[string]bool{}, unlike: map[string]string{}}
	j.mind = m
	gone := map[int]bool{}
	for _, e := range j.events {
		if b, ok := e.Body.(*journal.Retracted); ok {
			gone[b.Event] = true
		}
	}
	for _, e := range j.events {
		if !gone[e.N] {
			j.take(e)
		}
	}
}

// take lets one event change the mind, then goes on as far as the readings lead.
func (j *Job) take(e journal.Event) {
	m := j.mind
	switch b := e.Body.(type) {
	case *journal.Opened:
		m.jurisdiction, m.handing = b.Jurisdiction, true
	case *journal.Answered:
		m.show(b.Cautions)
		j.answered(b)
	case *journal.Handed:
		m.hands, m.handing, m.closeUp = b.Hands, false, ""
		clear(m.shown) // these hands have heard none of it
	case *journal.Acted:
		m.show(b.Cautions)
	case *journal.Read:
		m.show(b.Cautions)
		j.read(e.N, b)
	case *journal.Skipped:
		m.skipped[b.Step] = b.Why
		j.skip(b)
	case *journal.Turned:
		j.turn(b)
	case *journal.Repaired:
		j.repaired(b)
	case *journal.Closed:
		m.closed = b
	}
	j.advance()
	if m.finish == nil && m.closed == nil && j.proven() {
		m.finish = &finish{as: journal.Proven, words: "repaired and cleared: " + causeWords(m.place.Causes)}
	}
}

func (m *mind) show(ids []string) {
	for _, id := range ids {
		m.shown[id] = true
	}
}

// here names the place and epoch, so that an answer given there counts only there.
func (m *mind) here() string { return fmt.Sprintf("%d %s", m.epoch, leads(m.place)) }

// told gives the answer to a question that was asked at this very place.
func (m *mind) told(ask string) string {
	a := m.answers[ask]
	if a == nil || a.Values["at"] != m.here() {
		return ""
	}
	return a.Choice
}

// tell makes an answer that counts at this place only.
func (m *mind) tell(ask, choice string) *journal.Answered {
	return &journal.Answered{Ask: ask, Choice: choice, Values: map[string]string{"at": m.here()}}
}
