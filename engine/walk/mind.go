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
	handing      bool // hands are being asked for
	plant        *trees.Plant
	graph        *trees.Graph
	walked       []*trees.Graph // of every sign so far; the last is graph
	epoch        int
	now          map[string]*reading // of this epoch, by check instance
	place        trees.Target
	trail        []passed
	skipped      map[string]string // step → why
	meters       map[string]int    // probe → how often another meter was asked for
	repaired     []*journal.Repaired
	retests      []*retest
	notes        []string
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
		meters: map[string]int{}, shown: map[string]bool{}}
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
		j.answered(b)
	case *journal.Handed:
		m.hands, m.handing = b.Hands, false
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
	case *journal.Noted:
		m.notes = append(m.notes, b.Text)
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

// read files a reading of a check of this job's graph.
func (j *Job) read(n int, b *journal.Read) {
	m := j.mind
	check := j.find(b.Check)
	if check == nil {
		m.mismatches = append(m.mismatches, fmt.Sprintf("event %d: these trees have no check %q; its reading is kept as a note", n, b.Check))
		return
	}
	if b.Measured != "" && b.Measured != check.Measured() {
		m.mismatches = append(m.mismatches, fmt.Sprintf("event %d: %q is measured otherwise in these trees; its reading is kept as a note", n, b.Check))
		return
	}
	r := &reading{events: []int{n}, check: check, step: b.Step, purpose: b.Purpose, answer: b.Answer, values: map[string]journal.Value{}, body: b}
	for _, v := range b.Values {
		r.values[v.As] = v
	}
	if before := m.now[check.ID]; before != nil {
		r.tried = before.tried
		if len(before.values) < len(check.Probes) {
			r.events = append(before.events, n)
		} else if b.Purpose == journal.ForAgain {
			r.tried++
		}
	}
	m.now[check.ID] = r
	j.remember(r)
	if v, moving := j.moving(r); moving {
		m.trail = append(m.trail, passed{m.graph, nil, r, v.branch, v.to})
		m.place, m.retests = v.to, nil
	}
}

// remember checks that a recorded verdict is the one these trees give.
func (j *Job) remember(r *reading) {
	if r.body.Leads == "" || j.mind.graph == nil {
		return
	}
	step := j.mind.graph.Steps[r.step]
	if step == nil || step.Check != r.check || j.lacking(r.check) != nil {
		return
	}
	if v := j.judge(step, r); leads(v.to) != r.body.Leads {
		j.mind.mismatches = append(j.mind.mismatches,
			fmt.Sprintf("event %d: %s led to %q when it was read and leads to %q now", r.events[len(r.events)-1], r.check.ID, r.body.Leads, leads(v.to)))
	}
}

// advance follows readings already taken as far as they lead.
func (j *Job) advance() {
	m := j.mind
	for m.graph != nil && m.place.Go != "" && m.closed == nil {
		step := m.graph.Steps[m.place.Go]
		r := m.now[step.Check.ID]
		if r == nil {
			return
		}
		v := j.judge(step, r)
		switch {
		case v.verdict:
			m.trail = append(m.trail, passed{m.graph, step, r, v.branch, v.to})
			m.place = v.to
		case v.whole && r.tried > 0:
			m.skipped[step.Path] = "the reading does not decide, not even measured again"
			m.pass(step)
		default:
			return
		}
	}
}

// skip leaves a step without its reading.
func (j *Job) skip(b *journal.Skipped) {
	m := j.mind
	if m.graph == nil || m.place.Go != b.Step {
		return
	}
	m.pass(m.graph.Steps[b.Step])
}

// pass goes on from a step that gave nothing: its otherwise, or to somebody else.
func (m *mind) pass(step *trees.Bound) {
	to := step.Otherwise
	m.trail = append(m.trail, passed{graph: m.graph, step: step, branch: -1, to: to})
	if leads(to) == "" {
		to = trees.Target{Refer: undecided(m.skipped[step.Path])}
	}
	m.place = to
}

func undecided(why string) *trees.Referral {
	return &trees.Referral{ID: "undecided", Words: "a step of the tree gave no answer: " + why,
		To: "somebody who can take that step, with the causes that are left", Leave: "as safe as it was found, or isolated"}
}

// turn leaves the tree's order, or for another tree.
func (j *Job) turn(b *journal.Turned) {
	m := j.mind
	if j.lib.Set.Symptoms[b.To] != nil {
		m.answers["symptom"] = &journal.Answered{Ask: "symptom", Choice: b.To}
		m.graph = nil
		j.bind()
		return
	}
	if m.graph != nil && m.graph.Steps[b.To] != nil {
		m.place = trees.Target{Go: b.To}
	}
}

// repaired starts a new epoch: what was read before is of another plant.
func (j *Job) repaired(b *journal.Repaired) {
	m := j.mind
	m.repaired = append(m.repaired, b)
	m.retests = j.retestsFor(b.Cause)
	m.epoch++
	m.now = map[string]*reading{}
}

// find gets a check by its instance, those of causes and retests too: of this
// sign's graph, or of one walked before it.
func (j *Job) find(id string) *trees.BoundCheck {
	for i := len(j.mind.walked) - 1; i >= 0; i-- {
		if c := j.mind.walked[i].Check(id); c != nil {
			return c
		}
	}
	return nil
}
