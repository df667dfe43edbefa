package safety

import (
	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// PlanRestore gives the acts that put the plant back: plugs refitted and covers
// on with it dead, calls withdrawn, locks off, power back, and last what the
// calls changed, as it was noted. After a voltage found
// there is no such plan: everything stays off and locked.
func PlanRestore(ctx Context, w *World) []journal.Act {
	p := &planner{ctx: ctx, w: w.Clone()}
	if p.w.Found != nil {
		return nil
	}
	p.whole()
	p.giveBack()
	return p.acts
}

// PlanClosed is PlanRestore with the calls left as they are: covers on and power
// back, for something that is watched with the plant whole.
func PlanClosed(ctx Context, w *World) []journal.Act {
	p := &planner{ctx: ctx, w: w.Clone()}
	if p.w.Found != nil {
		return nil
	}
	p.whole()
	return p.acts
}

// whole puts everything back but the settings.
func (p *planner) whole() {
	var all []string
	for _, s := range p.ctx.Plant.Supplies {
		all = append(all, s.ID)
	}
	p.refit(all)
	p.shut(all)
	p.lids()
	p.release()
	p.restore(all)
}

// giveBack puts back what each call made or withdrawn by us changed. One that
// could not be put back is left.
func (p *planner) giveBack() {
	for _, c := range p.ctx.Plant.Calls {
		a := journal.Act{Do: journal.ActBack, On: c.ID}
		if _, touched := p.w.Calls[c.ID]; touched && c.Back != "" && !p.w.Cannot[Key(a)] {
			p.do(a.Do, a.On, 0)
		}
	}
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

// restore takes locks off and puts supplies back on, from the origin on. A
// switch whose own cover is off is put on first, while that is proved dead.
func (p *planner) restore(supplies []string) {
	for _, d := range p.ctx.Plant.Devices {
		if contains(supplies, d.Supply) && p.w.Devices[d.ID] != (Device{}) && p.w.bare(d.ID) {
			p.dead(nil, homes(p.ctx.Plant, d.ID), nil)
		}
	}
	for _, e := range p.ctx.Plant.Enclosures {
		if p.w.Proved(e.ID) {
			p.stowed([]string{e.ID})
		}
	}
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
