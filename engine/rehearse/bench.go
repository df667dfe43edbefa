package rehearse

import (
	"slices"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// bench is one plant with its model and the trees that serve it.
type bench struct {
	plant  *trees.Plant
	model  model
	graphs map[string]*trees.Graph // by symptom
	signs  []*trees.Sign
	faults []*fault
	passes []*pass
	needed map[*trees.Sign]bool // those that have a tree, or overshadow one that has
}

// told is a sign that a fault shows and that people tell of.
type told struct {
	sign  string
	graph *trees.Graph // nil: no tree serves it yet
}

// told lists the signs that show and that none of the others that show
// overshadows: what a caller would say. A sign that is overshadowed and could
// overshadow nothing more is not looked for. Only, unless nil, are the signs that
// matter.
func (b *bench) told(s subject, only map[*trees.Sign]bool) []told {
	shown, shadowed := []*trees.Sign{}, map[string]bool{}
	for _, sign := range b.signs {
		if only != nil && !only[sign] {
			continue
		}
		if shadowed[sign.ID.Value] && all(sign.Shadows, shadowed) || !s.shows(sign) {
			continue
		}
		shown = append(shown, sign)
		for _, t := range sign.Shadows {
			shadowed[t.Value] = true
		}
	}
	var out []told
	for _, sign := range shown {
		if !shadowed[sign.ID.Value] {
			out = append(out, told{sign.ID.Value, b.graphs[sign.ID.Value]})
		}
	}
	return out
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

func all(names []strict.Text, known map[string]bool) bool {
	for _, n := range names {
		if !known[n.Value] {
			return false
		}
	}
	return true
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

// checks lists every check that the plant's trees take, each once, in order.
func (b *bench) checks() []*trees.BoundCheck {
	known := map[string]*trees.BoundCheck{}
	for _, g := range b.graphs {
		for _, step := range g.Steps {
			known[step.Check.ID] = step.Check
		}
		for _, c := range g.Causes(g.Start) {
			if c.Confirm != nil {
				known[c.Confirm.Check.ID] = c.Confirm.Check
			}
		}
	}
	var out []*trees.BoundCheck
	for _, id := range sorted(known) {
		out = append(out, known[id])
	}
	return out
}
