package rehearse

import (
	"maps"
	"slices"

	"faultwalk/trees"
)

// Unproved is a reading that proves a repair, and that the healthy plant fails:
// the job would never come to its end.
type Unproved struct {
	Plant string `json:"plant"`
	Check string `json:"check"`
	For   string `json:"for"`
	Reads string `json:"reads"`
}

// repaired takes every reading that proves a repair on the healthy plant, as the
// engineer does from a plant that is put back: what clears each sign, the retest
// and the second reading of every cause, and what was amiss in each exact case.
// One that is not for the engineer, or that has no healthy verdict, proves nothing.
func (r *rehearsal) repaired(b *bench) (out []Unproved) {
	p := &pass{b, Engineer(r.o.Kit), ""}
	w := newWalker(r, &host{bench: b}, p, newJudge(r.set, r.jurisdiction, b.plant))
	if known := b.walker(p.person); known != nil {
		w.ground, w.judge = known.ground, known.judge
	}
	w.put(nil, r.o.Seed, 0)
	proofs := b.proofs()
	for _, id := range slices.Sorted(maps.Keys(proofs)) {
		if reads, why := w.retest(proofs[id].check); why != "" {
			out = append(out, Unproved{b.plant.ID, id, proofs[id].of, reads + ": " + why})
		}
	}
	return out
}

// proving is a check that has to pass after a repair, and of what.
type provingCheck struct {
	check *trees.BoundCheck
	of    string
}

// proofs are the checks that prove repairs on a plant.
func (b *bench) proofs() map[string]provingCheck {
	out := map[string]provingCheck{}
	add := func(c *trees.BoundCheck, of string) {
		if c != nil && c.Good.Value != "" && !c.Check.Once && out[c.ID].check == nil {
			out[c.ID] = provingCheck{c, of}
		}
	}
	for _, symptom := range slices.Sorted(maps.Keys(b.graphs)) {
		g := b.graphs[symptom]
		add(g.Cleared, "what clears "+symptom)
		for _, c := range g.Causes(g.Start) {
			add(c.Retest, "the retest of "+c.ID)
			if c.Confirm != nil {
				add(c.Confirm.Check, "the second reading of "+c.ID)
			}
		}
	}
	for _, p := range b.pieces {
		for _, cases := range p.cases {
			for _, c := range cases {
				if c.Verdict == Exact {
					add(c.amiss, "what was amiss with "+c.Fault)
				}
			}
		}
	}
	return out
}

// retest takes a check on the plant as it is put back, and says why it is not as
// it should be; empty where it is, or where it cannot be taken.
func (w *walker) retest(c *trees.BoundCheck) (reads, why string) {
	if w.changed {
		w.put(w.fault, 0, w.draw)
	}
	w.walkState = walkState{at: w.ground.first, now: map[string]*reading{}, node: w.track.start}
	if w.until(c, c.Good.Value) != "" {
		return "", ""
	}
	r := w.now[c.ID]
	switch good, decided := w.judge.holds(c.Good.Value, r, w.used(c)); {
	case !decided:
		return r.String(), "this decides nothing"
	case !good:
		return r.String(), "expected " + c.Good.Value
	}
	return "", ""
}

// amiss is the last check on the way that was not as it should be, or else the
// deciding one: a job takes it again after the repair.
func (w *walker) amiss() *trees.BoundCheck {
	var deciding *trees.BoundCheck
	for i := len(w.hops) - 1; i >= 0; i-- {
		h := w.hops[i]
		if h.step == nil || h.read == nil || h.branch < 0 {
			continue
		}
		if deciding == nil {
			deciding = h.read.check
		}
		if good := h.read.check.Good.Value; good != "" {
			if holds, decided := w.judge.holds(good, h.read, w.used(h.read.check)); decided && !holds {
				return h.read.check
			}
		}
	}
	return deciding
}
