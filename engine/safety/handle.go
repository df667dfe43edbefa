package safety

import (
	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// homes lists the mains enclosures that hold a device's own incoming terminals,
// which its poles begin with: with such a cover off, its handle may have come off with it, and its incoming side
// is live while it is worked.
func homes(p *trees.Plant, device string) []string {
	seen := map[string]bool{}
	for _, l := range p.Links {
		if l.Kind != trees.LinkPole || l.Of != device {
			continue
		}
		if pt := p.Point(l.From); pt != nil && pt.In != "" {
			seen[pt.In] = true
		}
	}
	var out []string
	for _, e := range p.Enclosures {
		if e.Mains && seen[e.ID] {
			out = append(out, e.ID)
		}
	}
	return out
}

// bare says whether a device's own cover may be off and its terminals live:
// then the device before it is used, to isolate and to restore.
func (w *World) bare(device string) bool {
	for _, box := range homes(w.plant, device) {
		if w.Enclosures[box].Open != AsFound && !w.Proved(box) {
			return true
		}
	}
	return false
}

// mayWork refuses to work a switch whose own cover is off and not proved dead.
func mayWork(ctx Context, w *World, a journal.Act) *Refusal {
	switch a.Do {
	case journal.ActSwitchOff, journal.ActLock, journal.ActUnlock, journal.ActSwitchOn:
		if w.bare(a.On) {
			return first("the cover of %s is off and its terminals may be live: use the device before it, or prove it dead first", ctx.Plant.Words(a.On))
		}
	}
	return nil
}

// stow puts a switch back on before its own cover comes off, or while that is
// proved dead: afterwards only the device before it is worked.
func (p *planner) stow(device string) {
	if d := p.w.Devices[device]; d.Locked != AsFound {
		p.do(journal.ActUnlock, device, 0)
	}
	if d := p.w.Devices[device]; d.Off != AsFound {
		p.do(journal.ActSwitchOn, device, 0)
	}
}

// stowed does so for every switch of ours that stands in one of the boxes.
func (p *planner) stowed(boxes []string) {
	for _, d := range p.ctx.Plant.Devices {
		if p.w.Devices[d.ID] != (Device{}) && shares(homes(p.ctx.Plant, d.ID), boxes) && p.kept(d, boxes) {
			p.stow(d.ID)
		}
	}
}

// kept says whether the boxes stay dead without the device.
func (p *planner) kept(d *trees.Device, boxes []string) bool {
	locked := p.w.Locked()
	delete(locked, d.ID)
	for _, box := range boxes {
		if !p.ctx.Plant.DeadFrom(d.Supply, box, locked) && contains(p.ctx.Plant.Reaching(box), d.Supply) {
			return false
		}
	}
	return true
}
