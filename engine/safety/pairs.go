package safety

import "faultwalk/trees"

// neutralFor is the neutral a point is read to: of its own supply if there is
// one here, on the same side of the isolators, the first where several are.
func (f *former) neutralFor(pt *trees.Point) *trees.Point {
	best, least := f.neutral[0], -1
	for _, n := range f.neutral {
		d := f.apart(pt, n)
		if least < 0 || d < least {
			best, least = n, d
		}
	}
	return best
}

// apart counts what speaks against reading a live to a neutral: not of one
// supply, and each device that parts one of them and not the other.
func (f *former) apart(live, neutral *trees.Point) int {
	n := 0
	if !shares(f.p.FedBy(live.ID), f.p.NeutralOf(neutral.ID)) {
		n = len(f.p.Devices) + 1
	}
	for _, d := range f.p.Devices {
		if f.p.CutFrom(live.ID, d.ID) != f.p.CutFrom(neutral.ID, d.ID) {
			n++
		}
	}
	return n
}

// shares says whether two lists have a word in common.
func shares(a, b []string) bool {
	for _, v := range a {
		if contains(b, v) {
			return true
		}
	}
	return false
}

// between adds one line for every two supplies with a live here: as different
// phases they stand 400 V apart.
func (f *former) between() {
	type first struct {
		supply string
		at     *trees.Point
	}
	var lives []first
	for _, s := range f.p.Supplies {
		for _, pt := range append(append([]*trees.Point{}, f.live...), f.other...) {
			if contains(f.p.FedBy(pt.ID), s.ID) {
				lives = append(lives, first{s.ID, pt})
				break
			}
		}
	}
	for i, a := range lives {
		for _, b := range lives[i+1:] {
			if a.at != b.at {
				f.volts(a.at, b.at)
			}
		}
	}
}

// repeat adds the live to neutral lines again under load: a ghost collapses, a
// conductor that is live does not. Never to earth (handbook 1.3).
func (f *former) repeat() {
	for _, x := range f.fields {
		if x.Kind == Volts && mayLoad(f.p, x.From, x.To) {
			x.Name, x.Mode = x.Name+loaded, twoPoleLoaded
			f.add(x)
		}
	}
}

// mayLoad says whether a meter that draws current may be put between two
// points: live to neutral of one residual-current group, and nothing else.
// 3 kΩ to earth passes 80 mA, trips the RCD, and where the earth is broken
// lifts the case to mains (handbook 3.0).
func mayLoad(p *trees.Plant, a, b *trees.Point) bool {
	if a == nil || b == nil {
		return false
	}
	if a.Role == "neutral" {
		a, b = b, a
	}
	driven := a.Role == "live" || a.Role == "switched"
	return driven && b.Role == "neutral" && len(p.FedBy(b.ID)) == 0 && oneRCD(p, p.FedBy(a.ID), p.NeutralOf(b.ID))
}

// oneRCD says whether the supplies that feed a live and those whose neutral it
// is read to all hang on one residual-current device.
func oneRCD(p *trees.Plant, lives, neutrals []string) bool {
	if len(lives) == 0 || len(neutrals) == 0 {
		return false
	}
	rcd := p.Supply(lives[0]).RCD
	for _, s := range append(append([]string{}, lives...), neutrals...) {
		if p.Supply(s).RCD != rcd {
			return false
		}
	}
	return true
}
