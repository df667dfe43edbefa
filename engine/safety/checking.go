package safety

import "faultwalk/trees"

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

// Ever says whether a thing may be done at all by these hands with these
// instruments, whatever is done to the plant first; nil means yes. Where there
// is also a way to it, [Available] says.
func Ever(ctx Context, w *World, t Thing) *Refusal { return mayEver(ctx, w, t) }

// mayEver judges what stays as it is whatever is done to the plant: the hands,
// the meter on that pair, what is never opened, what is done once. A householder
// on the phone only does what was worded for that.
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
		if e.Unit {
			if r := May(ctx, "outdoor-unit"); r != nil {
				return r
			}
		}
	}
	if t.Check != nil && t.Check.Say == "" && ctx.Hands.Phone && ctx.Hands.Kind == "householder" {
		return &Refusal{Why: "this is never talked through by phone", Referral: beyondHands, Kind: Hands}
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
