package safety

import (
	"maps"
	"slices"

	"faultwalk/trees"
)

// readyDead: every mains enclosure proved, the stated plugs off, and the calls
// that need no power made.
func (w *World) readyDead(t Thing) *Refusal {
	for _, box := range t.Need.Enclosures {
		if r := w.wantsProof(box); r != nil {
			return r
		}
	}
	if r := w.readyPlugs(t.Need, t.Check != nil); r != nil {
		return r
	}
	return w.readyCalls(w.callsOf(t.Need), t.Need.For)
}

// readyLive: covers off, the supplies on, plugs and calls as stated.
func (w *World) readyLive(t Thing) *Refusal {
	for _, box := range t.Need.Enclosures {
		if r := w.wantsOpen(box); r != nil {
			return r
		}
	}
	return w.readyPowered(t)
}

// readyOutside: nothing is opened for it. With a call or where the plant must
// have its supplies, all of it is as found but for the plugs it names.
func (w *World) readyOutside(t Thing) *Refusal {
	if t.Need.Powered || t.Need.Called() {
		return w.readyPowered(t)
	}
	if r := w.readyPlugs(t.Need, false); r != nil {
		return r
	}
	return w.readyCalls(t.Need.Calls, t.Need.For)
}

// readyPowered: supplies on, plugs exactly as stated, calls as stated and waited for.
func (w *World) readyPowered(t Thing) *Refusal {
	for _, s := range w.suppliesOf(t) {
		if !w.Powered(s) {
			return first("put %s back on first", w.plant.Supply(s).Words)
		}
	}
	if r := w.readyPlugs(t.Need, true); r != nil {
		return r
	}
	return w.readyCalls(w.callsOf(t.Need), t.Need.For)
}

// suppliesOf lists the supplies that must be on for a thing: all of them where
// the plant must run, or else those that reach what is probed.
func (w *World) suppliesOf(t Thing) []string {
	on := map[string]bool{}
	reach := func(supplies []string) {
		for _, s := range supplies {
			on[s] = true
		}
	}
	if t.Check != nil && !t.Need.Powered {
		for _, b := range t.Check.Probes {
			for _, pt := range []*trees.Point{b.From, b.To} {
				if pt != nil {
					reach(w.plant.ReachedBy(pt.ID))
				}
			}
		}
	} else if !t.Need.Powered {
		for _, box := range t.Need.Enclosures {
			reach(w.plant.Reaching(box))
		}
	}
	var out []string
	for _, s := range w.plant.Supplies {
		if on[s.ID] || t.Need.Powered || t.Need.Called() {
			out = append(out, s.ID)
		}
	}
	return out
}

// readyPlugs: the stated plugs are off; exactly they, where others would change
// the reading.
func (w *World) readyPlugs(n trees.Need, exactly bool) *Refusal {
	for _, id := range n.Unplugged {
		if w.Plugs[id] != Set {
			return first("unplug %s first", plugWords(w.plant, id))
		}
	}
	for _, g := range w.plant.Plugs {
		if exactly && w.Plugs[g.ID] != AsFound && !contains(n.Unplugged, g.ID) {
			return first("refit %s first", plugWords(w.plant, g.ID))
		}
	}
	return nil
}

// plugWords names a plug.
func plugWords(p *trees.Plant, id string) string {
	if g := p.Plug(id); g != nil && g.Words != "" {
		return g.Words
	}
	return id
}

// callsOf gives the calls that matter for a need. Dead, only those that stand
// without power do.
func (w *World) callsOf(n trees.Need) map[string]bool {
	if n.Power != trees.DeadWay {
		return n.Calls
	}
	m := map[string]bool{}
	for id, on := range n.Calls {
		if c := w.plant.Call(id); c != nil && c.Stands {
			m[id] = on
		}
	}
	return m
}

// readyCalls: every call as stated and its minutes waited.
func (w *World) readyCalls(calls map[string]bool, minutes float64) *Refusal {
	for _, id := range slices.Sorted(maps.Keys(calls)) {
		c := w.plant.Call(id)
		if c == nil {
			return &Refusal{Why: "there is no call " + id + " on this plant", Kind: Unknown}
		}
		k, wait := w.Calls[id], max(minutes, c.Settle)
		switch {
		case calls[id] && k.Asked != On:
			return first("call for %s first", c.Words)
		case !calls[id] && k.Asked != Off:
			return first("withdraw %s first", c.Words)
		case k.Minutes < wait:
			return first("leave it so for %g minutes first; %g are over", wait, k.Minutes)
		}
	}
	return nil
}
