package safety

import (
	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// dead brings about one dead period: open lists covers to come off, prove
// enclosures to be proved, with the covers that takes. Covers of ahead come off
// in the same dead period, its locks put on with it, so that five ordinary checks
// do not cost five isolations. Nothing to do, no dead period.
func (p *planner) dead(open, prove, ahead []string) {
	var off, forms []string
	for _, box := range open {
		if mains(p.ctx.Plant, box) && p.w.Enclosures[box].Open != Set && !contains(off, box) {
			off = append(off, box)
		}
	}
	for _, box := range prove {
		if !mains(p.ctx.Plant, box) || p.w.Proved(box) || contains(forms, box) {
			continue
		}
		forms = append(forms, box)
		for _, b := range touches(box, p.w.Form(box)) {
			if !contains(off, b) {
				off = append(off, b)
			}
		}
	}
	if len(off) == 0 {
		return
	}
	p.lock(p.isolators(append(off, p.worth(ahead)...)))
	p.discharge(off)
	boxes := append(off, p.along(ahead)...)
	p.stowed(boxes)
	for _, box := range boxes {
		p.open(box)
	}
	for _, box := range prove { // one proved before may have lost it when a switch was put on
		if mains(p.ctx.Plant, box) && !p.w.Proved(box) {
			p.do(journal.ActProve, box, 0)
		}
	}
}

// worth keeps the enclosures that a dead period can be widened to.
func (p *planner) worth(ahead []string) []string {
	var out []string
	for _, box := range ahead {
		e := p.ctx.Plant.Enclosure(box)
		if e == nil || !e.Mains || e.Sealed || p.w.Enclosures[box].Open == Set || p.w.Cannot[journal.ActOpen+" "+box] {
			continue
		}
		possible := true
		for _, s := range p.ctx.Plant.Reaching(box) {
			possible = possible && len(p.ctx.Plant.Isolators(s, box)) > 0
		}
		if possible {
			out = append(out, box)
		}
	}
	return out
}

// along keeps the enclosures that are dead now and may be opened by these hands.
func (p *planner) along(ahead []string) []string {
	var out []string
	for _, box := range ahead {
		e := p.ctx.Plant.Enclosure(box)
		if e == nil || !e.Mains || p.w.Enclosures[box].Open == Set || p.w.Cannot[journal.ActOpen+" "+box] {
			continue
		}
		if Guard(p.ctx, p.w, OfAct(journal.Act{Do: journal.ActOpen, On: box})) == nil {
			out = append(out, box)
		}
	}
	return out
}

// isolators chooses, for every supply that still reaches one of the enclosures,
// the nearest device that serves all of them, or else one for each. The order is
// the plant's.
func (p *planner) isolators(boxes []string) []*trees.Device {
	chosen := p.w.Locked()
	take := map[string]bool{}
	for _, s := range p.ctx.Plant.Supplies {
		var left []string
		for _, box := range boxes {
			if contains(p.ctx.Plant.Reaching(box), s.ID) && !p.ctx.Plant.DeadFrom(s.ID, box, chosen) {
				left = append(left, box)
			}
		}
		for _, d := range p.serving(s.ID, left) {
			take[d.ID], chosen[d.ID] = true, true
		}
	}
	var out []*trees.Device
	for _, d := range p.ctx.Plant.Devices {
		if take[d.ID] {
			out = append(out, d)
		}
	}
	return out
}

// serving gives the devices that keep one supply out of the enclosures.
func (p *planner) serving(supply string, boxes []string) []*trees.Device {
	if len(boxes) == 0 {
		return nil
	}
	for _, d := range p.near(supply, boxes[0]) {
		all := true
		for _, box := range boxes[1:] {
			all = all && p.ctx.Plant.DeadFrom(supply, box, map[string]bool{d.ID: true})
		}
		if all {
			return []*trees.Device{d}
		}
	}
	var out []*trees.Device
	for _, box := range boxes {
		if near := p.near(supply, box); len(near) > 0 {
			out = append(out, near[0])
		}
	}
	return out
}

// near lists the usable isolators of a supply for an enclosure, the nearest
// first; all of them where none is usable, so that the guard can say why.
func (p *planner) near(supply, box string) []*trees.Device {
	all := p.ctx.Plant.Isolators(supply, box)
	var out []*trees.Device
	for _, d := range all {
		if p.w.usable(d) {
			out = append(out, d)
		}
	}
	if len(out) == 0 {
		return all
	}
	return out
}

// lock stops the demand and switches off and locks devices.
func (p *planner) lock(devices []*trees.Device) {
	for _, d := range devices {
		if p.w.Devices[d.ID].Off != Set && !p.w.unloaded(d) {
			p.stop()
		}
	}
	for _, d := range devices {
		if p.w.Devices[d.ID].Off != Set {
			p.do(journal.ActSwitchOff, d.ID, 0)
		}
		if p.w.Devices[d.ID].Locked != Set {
			p.do(journal.ActLock, d.ID, 0)
		}
	}
}

// stop withdraws every call that may stand and waits once for the plant to stop.
func (p *planner) stop() {
	longest, left := "", 0.0
	for _, c := range p.ctx.Plant.Calls {
		if !p.w.stopped(c) && p.w.Calls[c.ID].Asked != Off && !p.w.stuck(c) {
			p.do(journal.ActRelease, c.ID, 0)
		}
	}
	for _, c := range p.ctx.Plant.Calls {
		if m := c.Stop - p.w.Calls[c.ID].Minutes; !p.w.stopped(c) && m > left {
			longest, left = c.ID, m
		}
	}
	if left > 0 {
		p.do(journal.ActWait, longest, left)
	}
}
