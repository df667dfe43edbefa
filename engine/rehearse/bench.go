package rehearse

import (
	"maps"
	"slices"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// bench is one plant with its model and the trees that serve it.
type bench struct {
	plant    *trees.Plant
	model    model
	graphs   map[string]*trees.Graph // by symptom
	signs    []*trees.Sign
	faults   []*fault
	passes   []*pass
	pieces   []*piece
	crews    []*crew // by worker, while it is walked
	left     int     // pieces
	proofs   proofs
	rivalled map[string][]*trees.BoundCause // by symptom, those whose second reading names a rival
	taken    map[strict.Pos]bool            // branches that draws took
	needed   map[*trees.Sign]bool           // those that have a tree, or overshadow one that has
}

// told is a sign that a fault shows and that a caller may tell of.
type told struct {
	sign     string
	graph    *trees.Graph // nil: no tree serves it yet
	shadowed bool         // another that shows would be told first
}

// told lists the signs that show and that a caller may tell of: those that none
// of the others overshadows, and those with a tree that only signs with a tree
// do, since somebody with a blank controller may say that there is no heat. A
// sign that could be neither, and could overshadow nothing more, is not looked
// for. Only, unless nil, are the signs that matter.
func (b *bench) told(s subject, only map[*trees.Sign]bool) []told {
	var out []told
	by := map[string][]string{} // sign → those that show and overshadow it
	for _, sign := range b.signs {
		id := sign.ID.Value
		if only != nil && !only[sign] || b.pointless(sign, by) || !s.shows(sign) {
			continue
		}
		for _, t := range sign.Shadows {
			by[t.Value] = append(by[t.Value], id)
		}
		if graph := b.graphs[id]; len(by[id]) == 0 || graph != nil && b.served(by[id]) {
			out = append(out, told{id, graph, len(by[id]) > 0})
		}
	}
	return out
}

// pointless says whether it changes nothing that a sign shows.
func (b *bench) pointless(sign *trees.Sign, by map[string][]string) bool {
	over := by[sign.ID.Value]
	if len(over) == 0 || b.graphs[sign.ID.Value] != nil && b.served(over) {
		return false
	}
	for _, t := range sign.Shadows {
		if len(by[t.Value]) == 0 || b.served(by[t.Value]) {
			return false
		}
	}
	return true
}

// served says whether every one of the signs has a tree.
func (b *bench) served(signs []string) bool {
	return !slices.ContainsFunc(signs, func(id string) bool { return b.graphs[id] == nil })
}

// need finds the signs that a tree serves, and those that overshadow one of them.
func (b *bench) need() {
	b.needed = map[*trees.Sign]bool{}
	ids := map[string]bool{}
	for n := -1; n < len(ids); {
		n = len(ids)
		for _, s := range b.signs {
			matters := b.graphs[s.ID.Value] != nil || slices.ContainsFunc(s.Shadows, func(t strict.Text) bool { return ids[t.Value] })
			if matters {
				b.needed[s], ids[s.ID.Value] = true, true
			}
		}
	}
}

// check finds a check of any of the plant's trees.
func (b *bench) check(id string) *trees.BoundCheck {
	for _, g := range b.graphs {
		if c := g.Check(id); c != nil {
			return c
		}
	}
	return nil
}

// cause finds a cause of any of the plant's trees.
func (b *bench) cause(id string) *trees.BoundCause {
	for _, g := range b.graphs {
		if c := g.Cause(id); c != nil {
			return c
		}
	}
	return nil
}

// checks lists every check of the plant's trees, each once, in order.
func (b *bench) checks() []*trees.BoundCheck {
	var graphs []*trees.Graph
	for _, symptom := range slices.Sorted(maps.Keys(b.graphs)) {
		graphs = append(graphs, b.graphs[symptom])
	}
	return trees.Checks(graphs...)
}
