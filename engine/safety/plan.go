package safety

import (
	"maps"
	"slices"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// planner does acts on a copy of the world, so that nothing already so is
// done again.
type planner struct {
	ctx  Context
	w    *World
	acts []journal.Act
}

// Plan gives the acts from here to where the guard allows a thing, in the order
// a person expects: withdraw calls and let the plant stop, switch off and lock
// what reaches the enclosures, covers off, prove each, plugs, power back for a
// live reading, calls, waits. Covers of ahead that the same locks make dead come
// off in the same dead period. After a voltage found it begins with isolating
// further supplies and proving again.
//
// What can never be had is no matter of the plan: ask Available first.
func Plan(ctx Context, w *World, t Thing, ahead []string) []journal.Act {
	p := &planner{ctx: ctx, w: w.Clone()}
	if p.w.Found != nil && !p.clear() {
		return nil
	}
	p.prepare(t, ahead)
	for _, box := range t.Need.Covers {
		p.open(box)
	}
	p.plugs(t, false)
	if powered(t) {
		p.restore(p.w.suppliesOf(t))
	}
	p.demand(p.w.callsOf(t.Need), t.Need.For)
	return p.acts
}

// do appends an act and does it on the copy, a proof with nothing found.
func (p *planner) do(what, on string, minutes float64) {
	a := journal.Act{Do: what, On: on, Minutes: minutes}
	p.acts = append(p.acts, a)
	p.w.assume(a)
}

// powered says whether a thing needs supplies on.
func powered(t Thing) bool {
	n := t.Need
	return n.Power == trees.Live || n.Power == trees.Outside && len(n.Enclosures) == 0 && (n.Powered || n.Called())
}

// exactly says whether plugs the thing does not name have to be fitted.
func exactly(t Thing) bool {
	return powered(t) || t.Need.Power == trees.DeadWay && t.Check != nil
}

// clear isolates further supplies after a find and proves again; false where
// that is not possible.
func (p *planner) clear() bool {
	if p.w.Finds > 1 {
		return false
	}
	for !p.w.more() {
		further := Candidates(p.ctx.Plant, p.w)
		if len(further) == 0 {
			return false
		}
		p.lock(further)
	}
	p.dead([]string{p.w.Found.Enclosure}, []string{p.w.Found.Enclosure}, nil)
	return true
}

// prepare makes the dead period a thing needs: for covers to come off, for
// hands to go in, and for plugs behind mains covers.
func (p *planner) prepare(t Thing, ahead []string) {
	var open, prove []string
	for _, box := range t.Need.Enclosures {
		if powered(t) {
			open = append(open, box)
		} else {
			prove = append(prove, box)
		}
	}
	for _, g := range p.changes(t) {
		if mains(p.ctx.Plant, g.In) {
			prove = append(prove, g.In)
		}
	}
	attended := May(p.ctx, "live") == nil
	if powered(t) && !attended {
		ahead = nil
	}
	p.dead(open, prove, ahead)
	p.plugs(t, true)
	if powered(t) && !attended {
		p.shut(p.w.unpowered(p.w.suppliesOf(t)))
	}
}

// changes lists the plugs to part or refit for a thing.
func (p *planner) changes(t Thing) []*trees.Plug {
	var out []*trees.Plug
	for _, g := range p.ctx.Plant.Plugs {
		off := contains(t.Need.Unplugged, g.ID)
		if off && p.w.Plugs[g.ID] != Set || !off && exactly(t) && p.w.Plugs[g.ID] != AsFound {
			out = append(out, g)
		}
	}
	return out
}

// plugs parts and refits what a thing needs, behind mains covers or elsewhere.
func (p *planner) plugs(t Thing, behindMains bool) {
	for _, g := range p.changes(t) {
		if mains(p.ctx.Plant, g.In) != behindMains {
			continue
		}
		if !behindMains && g.In != "" {
			p.open(g.In)
		}
		if contains(t.Need.Unplugged, g.ID) {
			p.do(journal.ActUnplug, g.ID, 0)
		} else {
			p.do(journal.ActRefit, g.ID, 0)
		}
	}
}

// open takes a cover off that is not off for certain.
func (p *planner) open(box string) {
	if p.w.Enclosures[box].Open != Set {
		p.do(journal.ActOpen, box, 0)
	}
}

// demand makes and withdraws calls and waits once for all of them.
func (p *planner) demand(calls map[string]bool, minutes float64) {
	longest, left := "", 0.0
	for _, id := range slices.Sorted(maps.Keys(calls)) {
		if on := calls[id]; on && p.w.Calls[id].Asked != On {
			p.do(journal.ActCall, id, 0)
		} else if !on && p.w.Calls[id].Asked != Off {
			p.do(journal.ActRelease, id, 0)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(calls)) {
		c := p.ctx.Plant.Call(id)
		if c == nil {
			continue
		}
		if m := max(minutes, c.Settle) - p.w.Calls[id].Minutes; m > left {
			longest, left = id, m
		}
	}
	if left > 0 {
		p.do(journal.ActWait, longest, left)
	}
}
