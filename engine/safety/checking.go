package safety

import (
	"sort"

	"faultwalk/trees"
)

// guardCheck judges a check or a remedy: what no plan can mend first, then the
// state of the plant.
func guardCheck(ctx Context, w *World, t Thing) *Refusal {
	if r := halted(w, t); r != nil {
		return r
	}
	if r := mayEver(ctx, w, t); r != nil {
		return r
	}
	for _, box := range t.Need.Covers {
		if r := w.wantsOpen(box); r != nil {
			return r
		}
	}
	switch t.Need.Power {
	case trees.DeadWay:
		return w.readyDead(t)
	case trees.Live:
		return w.readyLive(t)
	case trees.Outside:
		if len(t.Need.Enclosures) > 0 { // a hand in one is never outside
			return w.readyDead(t)
		}
		return w.readyOutside(t)
	}
	return &Refusal{Why: "it is not known whether this is done outside, dead or live", Kind: Unknown}
}

// mayEver judges what stays as it is whatever is done to the plant: the hands,
// the meter on that pair, what is never opened, what is done once.
func mayEver(ctx Context, w *World, t Thing) *Refusal {
	for _, c := range asked(t.Need) {
		if r := May(ctx, c); r != nil {
			return r
		}
	}
	if r := checkModes(ctx, t); r != nil {
		return r
	}
	for _, box := range t.Need.Enclosures {
		e := ctx.Plant.Enclosure(box)
		if e == nil {
			return &Refusal{Why: "there is no enclosure " + box + " on this plant", Kind: Unknown}
		}
		if r := closedForGood(ctx.Plant, e); r != nil {
			return r
		}
	}
	if t.Check != nil && t.Check.Check != nil && t.Check.Check.Once && w.Read[t.Check.ID] {
		return &Refusal{Why: "this was done once on this job and is not done again", Referral: tripsAgain, Kind: Again}
	}
	return nil
}

// asked lists the capabilities of a need: those it names, and those its state
// and enclosures take whatever it names.
func asked(n trees.Need) []string {
	all := append([]string{}, n.Asks...)
	if n.Power == trees.Live {
		all = append(all, "live")
	}
	if len(n.Enclosures) > 0 {
		all = append(all, "covers")
	}
	if len(all) == 0 {
		all = append(all, "look")
	}
	return all
}

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
	if t.Need.Powered || len(t.Need.Calls) > 0 {
		return w.readyPowered(t)
	}
	return w.readyPlugs(t.Need, false)
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
		if on[s.ID] || t.Need.Powered || len(t.Need.Calls) > 0 {
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
	for _, id := range sortedKeys(calls) {
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

// sortedKeys gives the keys of a map in order.
func sortedKeys[V any](m map[string]V) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}
