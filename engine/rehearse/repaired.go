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

// Failed is a reading that the simulation could not give, and with which fault
// in the plant; empty: none.
type Failed struct {
	Plant string `json:"plant"`
	Check string `json:"check"`
	Fault string `json:"fault,omitempty"`
	Why   string `json:"why"`
}

// proofs are the readings that prove repairs, taken on the healthy plant.
type proofs struct {
	taken    int
	unproved []Unproved
	failed   []Failed
}

// repaired takes every reading that proves a repair on the healthy plant, as the
// engineer does from a plant that is put back: what clears each sign, the retest
// and the second reading of every cause, and what was amiss in each exact case.
// One that is not for the engineer, or that has no healthy verdict, proves nothing.
func (r *rehearsal) repaired(b *bench) (out proofs) {
	w := b.asker()
	w.put(nil, r.o.Seed, 0)
	proving := b.proving()
	for _, id := range slices.Sorted(maps.Keys(proving)) {
		w.fresh(r.o.Seed)
		out.take(w, proving[id])
	}
	return out
}

// asker is that of any crew which was on the plant.
func (b *bench) asker() *walker {
	i := slices.IndexFunc(b.crews, func(c *crew) bool { return c != nil })
	return b.crews[i].asker
}

// provingCheck is a check that has to pass after a repair, and of what.
type provingCheck struct {
	check *trees.BoundCheck
	of    string
}

// proving lists the checks that prove repairs on a plant.
func (b *bench) proving() map[string]provingCheck {
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

// take takes a check on the healthy plant, and notes where that is not as it
// should be, or cannot be simulated.
func (p *proofs) take(w *walker, proof provingCheck) {
	c, plant := proof.check, w.bench.plant.ID
	refusal, err := w.until(c, c.Good.Value)
	if err != nil {
		p.failed = append(p.failed, Failed{Plant: plant, Check: c.ID, Why: err.Error()})
	}
	if refusal != nil || err != nil {
		return
	}
	p.taken++
	r, why := w.now[c.ID], ""
	switch good, decided := w.judge.holds(c.Good.Value, r, w.used(c)); {
	case !decided:
		why = "this decides nothing"
	case !good:
		why = "expected " + c.Good.Value
	default:
		return
	}
	p.unproved = append(p.unproved, Unproved{plant, c.ID, proof.of, r.String() + ": " + why})
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
