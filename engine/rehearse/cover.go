package rehearse

import (
	"maps"
	"slices"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// reached is what the walks came to: branches by their place in the files, and
// causes as they are written.
type reached struct {
	branches map[strict.Pos]bool
	causes   map[string]bool
}

// hops notes the branches that a walk took.
func (t reached) hops(all []hop) {
	for _, h := range all {
		if h.branch >= 0 && h.step != nil {
			t.branches[h.step.Branches[h.branch].Pos] = true
		}
	}
}

// end notes the causes at which a walk ended.
func (t reached) end(e end) {
	for _, c := range e.to.Causes {
		t.causes[c.Cause.ID] = true
	}
}

// cover finds what no walk reached: branches on any plant, and causes of each
// plant. Where everybody walked everything with draws, the authors' cases are
// walked too.
func (r *Report) cover(o Options, set *trees.Set, benches []*bench) {
	got, ended := reached{map[strict.Pos]bool{}, map[string]bool{}}, map[string]bool{}
	for _, b := range benches {
		maps.Copy(got.branches, b.taken)
		for _, p := range b.pieces {
			for _, c := range slices.Concat(p.cases...) {
				got.hops(c.hops)
				got.end(c.end)
				for _, cause := range c.end.to.Causes {
					ended[c.Plant+"\n"+cause.ID] = true
				}
			}
		}
	}
	if o.thorough() {
		tell(set, o, got)
	}
	r.branches(benches, got)
	r.causes(benches, got)
	for _, b := range benches {
		r.unfound(b, ended)
	}
}

// branches lists those that nothing took though they do not say why, and those
// that say why and were taken.
func (r *Report) branches(benches []*bench, got reached) {
	all := map[strict.Pos]*trees.BoundBranch{}
	for _, b := range benches {
		for _, g := range b.graphs {
			for _, s := range g.Steps {
				for _, br := range s.Branches {
					if br.Stop == nil {
						all[br.Pos] = br
					}
				}
			}
		}
	}
	for at, br := range all {
		switch taken := got.branches[at]; {
		case !taken && br.Untaken == "":
			r.Untaken = append(r.Untaken, at.String())
		case taken && br.Untaken != "":
			r.Untrue = append(r.Untrue, at.String()+": a branch that is taken says that nothing takes it")
		}
	}
	slices.Sort(r.Untaken)
}

// causes lists those that no walk on any plant ended at though they do not say
// that they are only seen, and those that say so and were reached.
func (r *Report) causes(benches []*bench, got reached) {
	all := map[string]*trees.Cause{}
	for _, b := range benches {
		for _, g := range b.graphs {
			for _, c := range g.Causes(g.Start) {
				all[c.Cause.ID] = c.Cause
			}
		}
	}
	for _, id := range slices.Sorted(maps.Keys(all)) {
		switch c := all[id]; {
		case !got.causes[id] && c.Observed == "":
			r.Unreached = append(r.Unreached, c.Pos.String()+": "+id)
		case got.causes[id] && c.Observed != "":
			r.Untrue = append(r.Untrue, c.Pos.String()+": the cause "+id+" is reached and says that it is only seen")
		}
	}
	slices.Sort(r.Untrue)
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
