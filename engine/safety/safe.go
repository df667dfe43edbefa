package safety

import (
	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// PlanSafe gives the acts that leave the plant safe and off: calls withdrawn,
// what reaches a cover that is off switched off and locked, the enclosure proved
// and its cover on. Nothing is put back on, and what was never touched stays as
// it is. After a voltage found there is nothing to do: what is off stays off and
// nobody reaches in. What these hands may not do, or could not do before, is left
// out, and the rest done all the same.
func PlanSafe(ctx Context, w *World) []journal.Act {
	p := &planner{ctx: ctx, w: w.Clone()}
	if p.w.Found != nil {
		return nil
	}
	var all []string
	for _, s := range ctx.Plant.Supplies {
		all = append(all, s.ID)
	}
	p.lock(p.loose())
	p.shut(all)
	p.lids()
	p.release()
	return allowed(ctx, w, p.acts)
}

// PlanAway gives the acts that leave a plant whose earth, neutral or polarity is
// in doubt: calls withdrawn, and every supply that reaches a cover that is off
// switched off and locked as near to its origin as can be, away from the metal.
// Nothing is proved there, because zeros to a broken earth prove nothing, and
// nobody reaches in to put a cover on.
func PlanAway(ctx Context, w *World) []journal.Act {
	p := &planner{ctx: ctx, w: w.Clone()}
	if p.w.Found != nil {
		return nil
	}
	var all []string
	for _, s := range ctx.Plant.Supplies {
		all = append(all, s.ID)
	}
	boxes := p.uncovered(all)
	var devices []*trees.Device
	for _, s := range all {
		if d := p.first(s, boxes); d != nil {
			devices = append(devices, d)
		}
	}
	p.lock(devices)
	return allowed(ctx, w, p.acts)
}

// first is the device nearest to a supply's origin that can serve; nil where the
// supply reaches none of the enclosures or is kept out there already.
func (p *planner) first(supply string, boxes []string) *trees.Device {
	reached := false
	for _, box := range boxes {
		reached = reached || contains(p.ctx.Plant.Reaching(box), supply)
	}
	for _, d := range p.ctx.Plant.Devices {
		if reached && d.Supply == supply && p.w.usable(d) {
			if k := p.w.Devices[d.ID]; k.Off == Set && k.Locked == Set {
				return nil
			}
			return d
		}
	}
	return nil
}

// PlanStop gives the acts that stop the plant, so that no device is switched
// off under load: calls withdrawn, and the wait.
func PlanStop(ctx Context, w *World) []journal.Act {
	p := &planner{ctx: ctx, w: w.Clone()}
	p.stop()
	return p.acts
}

// loose lists the devices we switched off or locked that are not off and locked
// for certain.
func (p *planner) loose() []*trees.Device {
	var out []*trees.Device
	for _, d := range p.ctx.Plant.Devices {
		if k := p.w.Devices[d.ID]; k != (Device{}) && (k.Off != Set || k.Locked != Set) && p.w.usable(d) {
			out = append(out, d)
		}
	}
	return out
}

// allowed keeps the acts that the guard lets through one after the other, and
// that were not found to be impossible.
func allowed(ctx Context, w *World, acts []journal.Act) []journal.Act {
	c := w.Clone()
	var out []journal.Act
	for _, a := range acts {
		again := a.Do == journal.ActRelease && c.Calls[a.On].Asked == Off // made on by a proof that was left out
		if again || w.Cannot[Key(a)] || Guard(ctx, c, OfAct(a)) != nil {
			continue
		}
		c.assume(a)
		out = append(out, a)
	}
	return out
}
