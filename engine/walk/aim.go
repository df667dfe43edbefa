package walk

import (
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
	case j.retesting() != nil:
		r := j.retesting()
		return j.checkAim(r.check, nil, r.purpose)
	case m.place.Go != "":
		step := m.graph.Steps[m.place.Go]
		return j.checkAim(step.Check, step, journal.ForTree)
	case j.repairing() != nil:
		c := j.repairing()
		return &aim{need: c.Remedy.Need, cause: c}
	case j.confirming() != nil:
		c := j.confirming()
		a := j.checkAim(c.Confirm.Check, nil, journal.ForConfirm)
		a.cause = c
		return a
	}
	return nil
}

// checkAim is a check, or first the reading it needs for its expectation.
func (j *Job) checkAim(c *trees.BoundCheck, step *trees.Bound, purpose string) *aim {
	for _, need := range c.Uses {
		if j.mind.now[need.ID] == nil {
			return &aim{check: need, need: need.Need, step: step, purpose: purpose}
		}
	}
	return &aim{check: c, need: c.Need, step: step, purpose: purpose}
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
	case a.isolate:
		return safety.PlanSafe(j.context(), j.world)
	}
	if acts := j.closing(a); len(acts) > 0 {
		return acts
	}
	return safety.Plan(j.context(), j.world, a.thing(j), j.ahead(a))
}

// closing puts the plant back before what clears the sign: nobody watches a
// cylinder warm for a quarter of an hour with live terminals open beside it.
func (j *Job) closing(a *aim) []journal.Act {
	if a.purpose != journal.ForCleared || a.need.Power != trees.Outside || !j.uncovered() {
		return nil
	}
	acts := safety.PlanRestore(j.context(), j.world)
	for _, act := range acts {
		if j.world.Cannot[safety.Key(act)] {
			return nil
		}
	}
	return acts
}

// uncovered says whether a mains enclosure may stand open.
func (j *Job) uncovered() bool {
	for _, e := range j.mind.plant.Enclosures {
		if e.Mains && j.world.Enclosures[e.ID].Open != safety.AsFound {
			return true
		}
	}
	return false
}
