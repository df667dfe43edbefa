package rehearse

import "faultwalk/trees"

// Unopposed is a second reading that bears its cause out though the fault of the
// rival it names is there: it would never tell the one from the other.
type Unopposed struct {
	Plant string `json:"plant"`
	Cause string `json:"cause"`
	Rival string `json:"rival_fault"`
	Reads string `json:"reads"`
}

// opposed counts the second readings that were taken with a fault of their rival
// in the plant.
type opposed struct {
	taken  int
	silent []Unopposed // that do not speak against it
	failed []Failed
}

// rivals takes, with a fault in the plant, the second reading of every cause
// whose rival that fault is, in the trees that are walked for it: there the one
// is taken for the other. What is not for the engineer tells nothing.
func (c *crew) rivals(f *fault, told []told, seed uint64, into *opposed) {
	asked := map[string]bool{}
	for _, t := range told {
		if t.graph == nil {
			continue
		}
		for _, cause := range c.host.bench.rivalled[t.sign] {
			if !asked[cause.ID] && f.is(cause.Confirm.RivalID) && !f.is(cause.ID) {
				asked[cause.ID] = true
				c.asker.oppose(cause, seed, into)
			}
		}
	}
}

// oppose takes one second reading and says whether it speaks against its cause.
func (w *walker) oppose(cause *trees.BoundCause, seed uint64, into *opposed) {
	c := cause.Confirm
	w.fresh(seed)
	refusal, err := w.until(c.Check, c.If.Value)
	switch {
	case err != nil:
		into.failed = append(into.failed, Failed{w.bench.plant.ID, c.Check.ID, w.fault.id, err.Error()})
		return
	case refusal != nil:
		return
	}
	into.taken++
	if holds, decided := w.holds(c); holds || !decided {
		into.silent = append(into.silent, Unopposed{w.bench.plant.ID, cause.ID, w.fault.id, c.Check.ID + " = " + w.now[c.Check.ID].String()})
	}
}

// fresh starts anew on the plant as it is put.
func (w *walker) fresh(seed uint64) {
	if w.changed {
		w.put(w.fault, seed, w.draw)
	}
	w.walkState = walkState{at: w.ground.first, now: map[string]*reading{}, node: w.track.start}
}

// rival finds the causes of each tree whose second reading names a rival.
func (b *bench) rival() {
	b.rivalled = map[string][]*trees.BoundCause{}
	for symptom, g := range b.graphs {
		for _, c := range g.Causes(g.Start) {
			if c.Confirm != nil && c.Confirm.RivalID != "" {
				b.rivalled[symptom] = append(b.rivalled[symptom], c)
			}
		}
	}
}
