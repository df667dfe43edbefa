package rehearse

import (
	"maps"
	"slices"

	"faultwalk/trees"
)

// cover finds what no walk reached: branches by their place in the files, on
// any plant, and causes of each plant.
func (r *Report) cover(benches []*bench) {
	taken := map[string]bool{}
	ended := map[string]bool{}
	for _, b := range benches {
		for _, p := range b.pieces {
			for _, c := range slices.Concat(p.cases...) {
				c.cover(taken, ended)
			}
		}
	}
	all := map[string]bool{}
	for _, b := range benches {
		for _, g := range b.graphs {
			for _, s := range g.Steps {
				for _, br := range s.Branches {
					all[br.Pos.String()] = br.Stop == nil
				}
			}
		}
		r.unfound(b, ended)
	}
	for _, at := range slices.Sorted(maps.Keys(all)) {
		if all[at] && !taken[at] {
			r.Untaken = append(r.Untaken, at)
		}
	}
}

// cover notes the branches a case took and the causes it ended at.
func (c *Case) cover(taken, ended map[string]bool) {
	for _, h := range c.hops {
		if h.branch >= 0 && h.step != nil {
			taken[h.step.Branches[h.branch].Pos.String()] = true
		}
	}
	for _, cause := range c.end.to.Causes {
		ended[c.Plant+"\n"+cause.ID] = true
	}
}

func (r *Report) unfound(b *bench, ended map[string]bool) {
	causes := map[string]*trees.BoundCause{}
	for _, g := range b.graphs {
		for _, c := range g.Causes(g.Start) {
			causes[c.ID] = c
		}
	}
	for _, id := range slices.Sorted(maps.Keys(causes)) {
		if !ended[b.plant.ID+"\n"+id] {
			named := slices.ContainsFunc(b.faults, func(f *fault) bool { return f.is(id) })
			r.Unfound = append(r.Unfound, Unfound{b.plant.ID, id, named})
		}
	}
}
