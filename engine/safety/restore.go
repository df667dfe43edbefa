package safety

import (
	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// PlanRestore gives the acts that put the plant back: plugs refitted and covers
// on with it dead, calls withdrawn, locks off, power back. After a voltage found
// there is no such plan: everything stays off and locked.
func PlanRestore(ctx Context, w *World) []journal.Act {
	p := &planner{ctx: ctx, w: w.Clone()}
	if p.w.Found != nil {
		return nil
	}
	var all []string
	for _, s := range ctx.Plant.Supplies {
		all = append(all, s.ID)
	}
	p.refit(all)
	p.shut(all)
	p.lids()
	p.release()
	p.restore(all)
	return p.acts
}

// refit puts every plug back, those behind mains covers with them proved.
func (p *planner) refit(supplies []string) {
	everything := Thing{Need: trees.Need{Power: trees.Outside, Powered: true}}
	var prove []string
	for _, g := range p.changes(everything) {
		if g.In != "" {
			prove = append(prove, g.In)
		}
	}
	p.dead(nil, append(prove, p.uncovered(supplies)...), nil)
	p.plugs(everything, true)
	p.plugs(everything, false)
}

// uncovered lists the mains enclosures that may stand open and that one of the
// supplies reaches, in plant order.
func (p *planner) uncovered(supplies []string) []string {
	var out []string
	for _, e := range p.ctx.Plant.Enclosures {
		if e.Mains && p.w.Enclosures[e.ID].Open != AsFound && shares(p.ctx.Plant.Reaching(e.ID), supplies) {
			out = append(out, e.ID)
		}
	}
	return out
}

// shut puts covers on that may be off and would go live with the supplies. A
// proof may open the enclosure it refers to, which is then proved as well.
func (p *planner) shut(supplies []string) {
	for n := -1; n != len(p.acts); {
		n = len(p.acts)
		p.dead(nil, p.uncovered(supplies), nil)
	}
	for _, box := range p.uncovered(supplies) {
		p.do(journal.ActClose, box, 0)
	}
}

// lids puts on the covers behind which there is no mains.
func (p *planner) lids() {
	for _, e := range p.ctx.Plant.Enclosures {
		if !e.Mains && p.w.Enclosures[e.ID].Open != AsFound {
			p.do(journal.ActClose, e.ID, 0)
		}
	}
}

// release withdraws what was called by us.
func (p *planner) release() {
	for _, c := range p.ctx.Plant.Calls {
		if k := p.w.Calls[c.ID].Asked; k == On || k == Lapsed {
			p.do(journal.ActRelease, c.ID, 0)
		}
	}
}

// restore takes locks off and puts supplies back on, from the origin on.
func (p *planner) restore(supplies []string) {
	for _, d := range p.ctx.Plant.Devices {
		if !contains(supplies, d.Supply) {
			continue
		}
		if p.w.Devices[d.ID].Locked != AsFound {
			p.do(journal.ActUnlock, d.ID, 0)
		}
		if p.w.Devices[d.ID].Off != AsFound {
			p.do(journal.ActSwitchOn, d.ID, 0)
		}
	}
}
