package walk

import (
	"fmt"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

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
	if v, moving := j.moving(j.stepOf(r), r); moving {
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
