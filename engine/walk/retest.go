package walk

import (
	"cmp"
	"slices"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// retestsFor lists what must read as healthy after a repair: the reading
// that was amiss, what the cause adds, and what clears each sign the job walked. A reset
// is not made twice.
func (j *Job) retestsFor(cause string) []*retest {
	m := j.mind
	var out []*retest
	add := func(c *trees.BoundCheck, purpose string) {
		if c == nil || c.Check.Once || c.Good.Value == "" {
			return
		}
		for _, r := range out {
			if r.check.ID == c.ID {
				return
			}
		}
		out = append(out, &retest{c, purpose})
	}
	for _, g := range m.walked { // first: what clears a sign counts as that, whatever else asks for it
		add(g.Cleared, journal.ForCleared)
	}
	if d := j.amiss(); d != nil {
		add(d.read.check, journal.ForRetest)
	}
	for _, c := range m.place.Causes {
		if c.ID == cause {
			add(c.Retest, journal.ForRetest)
		}
	}
	slices.SortStableFunc(out, func(a, b *retest) int { return cmp.Compare(turnOf(a), turnOf(b)) })
	return out
}

// turnOf orders retests: dead ones while the plant is still off, then live
// ones, and what clears the sign last.
func turnOf(r *retest) int {
	switch {
	case r.purpose == journal.ForCleared:
		return 3
	case r.check.Need.Power == trees.Outside:
		return 2
	case r.check.Need.Power == trees.Live:
		return 1
	}
	return 0
}

// The states of a retest.
const (
	retestDue     = "due"
	retestPassed  = "passed"
	retestFailed  = "failed"
	retestMissing = "not possible"
)

func (j *Job) state(r *retest) string {
	if got := j.mind.now[r.check.ID]; got != nil {
		good, decided := j.healthy(got)
		whole := len(got.values) == len(r.check.Probes)
		switch {
		case good:
			return retestPassed
		case decided, whole && got.tried > 0, j.mind.told("again "+r.check.ID) == "fails":
			return retestFailed
		}
	}
	if j.world != nil && j.outOfReach(r.check) {
		return retestMissing
	}
	return retestDue
}

// retesting is the retest that stands next; nil if none is due or one failed.
func (j *Job) retesting() *retest {
	for _, r := range j.mind.retests {
		switch j.state(r) {
		case retestDue:
			return r
		case retestFailed:
			return nil
		}
	}
	return nil
}

// proven says whether every retest passed, the clearing one among them.
func (j *Job) proven() bool {
	cleared := false
	for _, r := range j.mind.retests {
		got := j.mind.now[r.check.ID]
		if got == nil {
			return false
		}
		if good, _ := j.healthy(got); !good {
			return false
		}
		cleared = cleared || r.purpose == journal.ForCleared
	}
	return cleared
}

func (j *Job) retestWords(r *reading) string {
	good, decided := j.healthy(r)
	switch {
	case good:
		return "as it should be"
	case decided:
		return "not as it should be"
	case len(r.values) < len(r.check.Probes):
		return "not decided by this alone"
	}
	return "too near an edge for this meter to decide"
}

// askFailed stands when a retest failed, or when nothing is left to retest and
// the sign was not seen to clear.
func askFailed(j *Job) *Ask {
	m := j.mind
	if len(m.retests) == 0 || m.finish != nil || j.retesting() != nil {
		return nil
	}
	ask := &Ask{ID: "retest failed", Kind: Choose, Title: "Not proven: the plant is not cleared"}
	for _, r := range m.retests {
		if s := j.state(r); s != retestPassed {
			ask.Body = append(ask.Body, "  - "+checkName(r.check)+": "+s)
		}
	}
	ask.Body = append(ask.Body, "The cause that was repaired may not have been the only one.")
	ask.Choices = []Choice{{ID: "again", Text: "walk the tree again; readings since the repair still count"},
		{ID: "leave", Text: "leave it safe, retest due"}, {ID: "refer", Text: "pass the job on"}}
	return ask
}

func takeFailed(j *Job, x Answer) (taken, error) {
	c, err := pick(askFailed(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	return taken{bodies: []any{j.mind.tell("retest failed", c)}}, nil
}

// failed goes back to the tree, or ends the job.
func (j *Job) failed(b *journal.Answered) {
	m := j.mind
	if b.Choice != "again" {
		j.ending(b)
		return
	}
	m.retests, m.trail = nil, nil
	if m.graph != nil {
		m.place = m.graph.Start
	}
}
