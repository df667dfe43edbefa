package safety

import (
	"fmt"
	"math"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// first refuses until something else is done.
func first(why string, a ...any) *Refusal {
	return &Refusal{Why: fmt.Sprintf(why, a...), Kind: Order}
}

// anytime is for making and withdrawing a call.
func anytime(Context, *World, Thing) *Refusal { return nil }

// mayWait wants minutes that can be waited, and for a drive to lose its charge
// what reaches it off and locked.
func mayWait(ctx Context, w *World, t Thing) *Refusal {
	if m := t.Act.Minutes; !(m > 0) || math.IsInf(m, 0) {
		return first("say how many minutes were waited, more than none")
	}
	if e := ctx.Plant.Enclosure(t.Act.On); e != nil {
		return w.wantsIsolated(e)
	}
	return nil
}

// mayOff: nothing is switched off under load. The demand is stopped first and
// the plant given its time to stop, unless another device keeps the supply off
// already, a call that stands could not be withdrawn, or a voltage was found.
func mayOff(ctx Context, w *World, t Thing) *Refusal {
	d := ctx.Plant.Device(t.Act.On)
	if w.Found != nil || w.unloaded(d) {
		return nil
	}
	for _, c := range ctx.Plant.Calls {
		if !w.stopped(c) {
			return first("stop the demand first: withdraw %s and wait %g minutes for the plant to stop", c.Words, c.Stop)
		}
	}
	return nil
}

// unloaded says whether nothing can flow through a device: it is off already,
// or was and is only seen to again, or every load behind it is cut off by
// another that is off.
func (w *World) unloaded(d *trees.Device) bool {
	if w.Devices[d.ID].Off != AsFound {
		return true
	}
	behind := 0
	for _, l := range w.plant.Links {
		if l.Kind != trees.LinkLoad || !w.plant.CutFrom(l.From, d.ID) && !w.plant.CutFrom(l.To, d.ID) {
			continue
		}
		if !w.cut(l) {
			return false
		}
		behind++
	}
	return behind > 0
}

// cut says whether a device that is off for certain parts a load from its supply.
func (w *World) cut(l *trees.Link) bool {
	for id, v := range w.Devices {
		if v.Off == Set && (w.plant.CutFrom(l.From, id) || w.plant.CutFrom(l.To, id)) {
			return true
		}
	}
	return false
}

// stopped says whether a call is withdrawn and the plant had time to stop, or
// stands and could not be withdrawn. One that may have been withdrawn before a
// pause, and cannot be again, has its time too.
func (w *World) stopped(c *trees.Call) bool {
	k := w.Calls[c.ID]
	if k.Asked != Off && !w.stuck(c) {
		return false
	}
	waited := k.Stopped || k.Minutes >= c.Stop
	return waited || k.Asked == On || k.Asked == NotKnown
}

// stuck says whether a call could not be withdrawn.
func (w *World) stuck(c *trees.Call) bool { return w.Cannot[journal.ActRelease+" "+c.ID] }

// mayLock: a lock goes on a device that can take one and is off.
func mayLock(ctx Context, w *World, t Thing) *Refusal {
	d := ctx.Plant.Device(t.Act.On)
	if !d.Lockable {
		return &Refusal{Why: d.Words + " cannot be locked off; tape is no lock", Referral: noIsolation, Kind: Never}
	}
	if w.Devices[d.ID].Off != Set {
		return first("switch off %s before locking it", d.Words)
	}
	return nil
}

// mayRestore judges taking a lock off and putting power back. A cover that may
// be off behind it must be on, unless the hands may work live.
func mayRestore(ctx Context, w *World, t Thing) *Refusal {
	d := ctx.Plant.Device(t.Act.On)
	if t.Act.Do == journal.ActSwitchOn && w.Devices[d.ID].Locked != AsFound {
		return first("take your lock off %s first", d.Words)
	}
	others := w.Locked()
	delete(others, d.ID)
	for _, e := range ctx.Plant.Enclosures {
		if w.Enclosures[e.ID].Open == AsFound || !contains(ctx.Plant.Reaching(e.ID), d.Supply) || ctx.Plant.DeadFrom(d.Supply, e.ID, others) {
			continue
		}
		if r := May(ctx, "live"); r != nil {
			return &Refusal{Why: fmt.Sprintf("the cover of %s goes back on, dead, before %s gives power", words(ctx.Plant, e.ID), d.Words), Referral: r.Referral, Kind: Order}
		}
	}
	return nil
}
