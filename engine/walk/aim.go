package walk

import (
	"maps"
	"slices"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// aim is what the job is working towards: a check to read, or a remedy, or
// putting everything back.
type aim struct {
	check   *trees.BoundCheck
	need    trees.Need
	step    *trees.Bound
	purpose string
	cause   *trees.BoundCause // of a remedy or of the reading that confirms it
	restore bool
	isolate bool
}

// aim finds what comes next; nil where a question comes first or nothing is left.
func (j *Job) aim() *aim {
	m := j.mind
	if m.graph == nil {
		return nil
	}
	switch {
	case m.finish != nil:
		return j.finishAim()
	case m.closeUp != "":
		return j.closeUpAim()
	case j.retesting() != nil:
		r := j.retesting()
		return j.checkAim(r.check, nil, r.purpose)
	case m.place.Go != "":
		step := m.graph.Steps[m.place.Go]
		return j.checkAim(step.Check, step, journal.ForTree)
	}
	if c := j.repairing(); c != nil {
		return &aim{need: c.Remedy.Need, cause: c}
	}
	if c := j.confirming(); c != nil {
		a := j.checkAim(c.Confirm.Check, nil, journal.ForConfirm)
		a.cause = c
		return a
	}
	return nil
}

// checkAim is a check, or first the reading it needs for its expectation.
func (j *Job) checkAim(c *trees.BoundCheck, step *trees.Bound, purpose string) *aim {
	if first := j.lacking(c); first != nil {
		c = first
	}
	return &aim{check: c, need: c.Need, step: step, purpose: purpose}
}

// lacking is a reading that a check needs for its expectation and that was not
// taken yet; nil if none is.
func (j *Job) lacking(c *trees.BoundCheck) *trees.BoundCheck {
	for _, as := range slices.Sorted(maps.Keys(c.Uses)) {
		if need := c.Uses[as]; j.mind.now[need.ID] == nil {
			return need
		}
	}
	return nil
}

// outOfReach says whether a check that no step of the tree stands for cannot be
// taken by these hands, or a reading that it needs.
func (j *Job) outOfReach(c *trees.BoundCheck) bool {
	for _, need := range c.Uses {
		if j.mind.now[need.ID] == nil && j.tooFar(&aim{check: need, need: need.Need}) != nil {
			return true
		}
	}
	return j.tooFar(&aim{check: c, need: c.Need}) != nil
}

func (a *aim) thing(j *Job) safety.Thing {
	if a.check != nil {
		return safety.OfCheck(a.check, j.modes(a.check)...)
	}
	return safety.OfNeed(a.need)
}

// plan gives the acts from here to where the aim can be met.
func (j *Job) plan(a *aim) []journal.Act {
	switch {
	case a.restore:
		return safety.PlanRestore(j.context(), j.world)
	case a.isolate && j.stopped():
		return safety.PlanAway(j.context(), j.world)
	case a.isolate:
		return safety.PlanSafe(j.context(), j.world)
	}
	if acts := j.coverFirst(a); len(acts) > 0 {
		return acts
	}
	return safety.Plan(j.context(), j.world, a.thing(j), j.ahead(a))
}

// stopped says whether the job ended in danger: nobody reaches in again.
func (j *Job) stopped() bool {
	f := j.mind.finish
	return f != nil && f.referral != nil && f.referral.Stop
}

// longWatch is how many minutes of watching want the covers on (judgement).
const longWatch = 10

// coverFirst puts the plant back before what clears the sign, and before a
// retest that takes long: nobody watches a cylinder warm for a quarter of an
// hour with live terminals open beside it.
func (j *Job) coverFirst(a *aim) []journal.Act {
	long := a.purpose == journal.ForRetest && a.need.For >= longWatch
	if a.purpose != journal.ForCleared && !long || a.need.Power != trees.Outside || !j.uncovered() {
		return nil
	}
	acts := safety.PlanClosed(j.context(), j.world)
	if _, r := safety.Rehearse(j.context(), j.world, acts); r != nil {
		return nil
	}
	return acts
}

// uncovered says whether a mains enclosure may stand open.
func (j *Job) uncovered() bool {
	return len(j.open()) > 0
}
