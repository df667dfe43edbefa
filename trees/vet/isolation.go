package vet

import (
	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// reaches reports what has to reach into an enclosure that is never opened
// here: a sealed one, one where a supply starts, one that no lockable device
// makes dead. Covers come off dead, for live readings too.
func (v *vetting) reaches(p *trees.Plant, n trees.Need, pos strict.Pos, what string) {
	for _, box := range append(append([]string{}, n.Enclosures...), n.Covers...) {
		e := p.Enclosure(box)
		if e == nil {
			continue
		}
		if why := closed(p, e); why != "" {
			v.on(p, pos, Closed, what+" reaches into "+quoted(box)+", which is never opened here: "+why)
		}
	}
}

// closed says why an enclosure is never opened; empty if it may be.
func closed(p *trees.Plant, e *trees.Enclosure) string {
	if e.Sealed {
		return "it is sealed"
	}
	for _, s := range p.Supplies {
		for _, start := range []string{s.Live, s.Neutral} {
			if pt := p.Point(start); pt != nil && pt.In == e.ID {
				return "the supply " + quoted(s.ID) + " starts in it, so nothing makes it dead"
			}
		}
	}
	for _, s := range p.Reaching(e.ID) {
		if len(p.Isolators(s, e.ID)) == 0 {
			return "no lockable device keeps the supply " + quoted(s) + " out of it"
		}
	}
	return ""
}
