package rehearse

import (
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// beyond goes on from a step that these hands cannot take: the same question
// dead, or without it, or to somebody else.
func (w *walker) beyond(step *trees.Bound, r *safety.Refusal) (trees.Target, bool) {
	if w.at.world.Found != nil {
		w.hop(hop{step: step, branch: -1, note: r.Why})
		return w.refer(r), true
	}
	if dead := w.graph.Steps[step.Dead]; dead != nil && w.within(dead) {
		w.hop(hop{step: step, branch: -1, note: r.Why + "; answered dead instead"})
		return trees.Target{Go: dead.Path}, true
	}
	to := w.pass(step, nil, r.Why)
	if to.Go == "" && len(to.Causes) == 0 && to.Refer == nil && to.Pass == "" {
		return w.refer(r), true
	}
	return to, true
}

// within says whether a step's check, and what it needs, may be taken by these hands.
func (w *walker) within(step *trees.Bound) bool {
	for _, need := range step.Check.Uses {
		if w.now[need.ID] == nil && w.refused(need) {
			return false
		}
	}
	return !w.refused(step.Check)
}

func (w *walker) refused(c *trees.BoundCheck) bool {
	r := &reading{check: c, using: make([]int, len(c.Probes))}
	return w.ground.leg(w.at, w.graph, nil, c, w.modes(r)).refusal != nil
}

func (w *walker) refer(r *safety.Refusal) trees.Target {
	w.why = r.Why
	id := r.Referral
	if id == "" {
		id = "beyond-hands"
	}
	if ref := w.judge.set.Referrals[id]; ref != nil {
		return trees.Target{Refer: ref}
	}
	return trees.Target{Refer: &trees.Referral{ID: id, Words: r.Why}}
}
