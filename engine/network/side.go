package network

import "slices"

// side is the ac or the dc half of a solver.
type side[T scalar] struct {
	t        *topology
	y, e     []T     // by branch: siemens, and the volts of its EMF
	moving   []bool  // by branch: its admittance has changed at least once
	movers   []int32 // the branches of moving
	sources  []int32 // the branches that have, or had, an EMF
	base     []T     // by slot: all branches but the movers; made when wanted
	based    bool    // base is so
	altered  bool    // an admittance has changed since the volts were found
	restated bool    // an EMF has
	factor   factor[T]
	flow     flow[T] // of the sources
	meter    column[T]
	seen     column[T]
}

// start begins anew on a topology; what was moving there is expected to move
// here.
func (d *side[T]) start(t *topology, invert func(T) T) {
	branches, was := len(t.places), d.movers
	d.t = t
	d.y, d.e = zeros(d.y, branches), zeros(d.e, branches)
	d.moving, d.movers, d.sources = zeros(d.moving, branches), d.movers[:0], d.sources[:0]
	d.factor.start(t.p, invert)
	d.flow.start(t.p)
	d.meter.known, d.seen.known = false, false
	d.expect(was)
}

// zeros is s with n zeros; its room is used again.
func zeros[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	s = s[:n]
	clear(s)
	return s
}

// expect takes those branches for movers that moved in another solver.
func (d *side[T]) expect(movers []int32) {
	for _, i := range movers {
		if int(i) < len(d.moving) {
			d.moving[i] = true
			d.movers = append(d.movers, i)
		}
	}
}

// set changes an admittance.
func (d *side[T]) set(branch int, y T) {
	if d.y[branch] == y {
		return
	}
	d.y[branch] = y
	d.altered = true
	if !d.moving[branch] {
		d.moving[branch] = true
		d.movers = append(d.movers, int32(branch))
		d.based = false
	}
}

// source changes an EMF.
func (d *side[T]) source(branch int, e T) {
	if d.e[branch] == e {
		return
	}
	d.e[branch] = e
	d.restated = true
	if !slices.Contains(d.sources, int32(branch)) {
		at := d.t.places[branch]
		d.sources = append(d.sources, int32(branch))
		d.flow.reach(d.t.p, min(at.from, at.to))
	}
}

// solve finds the volts, as far as something changed.
func (d *side[T]) solve() {
	if d.altered {
		d.stamp()
		d.factor.eliminate()
		d.meter.known, d.seen.known = false, false
	}
	if d.altered || d.restated {
		d.push()
		d.flow.spread(&d.factor)
		d.flow.all(&d.factor)
	}
	d.altered, d.restated = false, false
}

// stamp puts the branches into their slots: those that never moved at once.
func (d *side[T]) stamp() {
	if len(d.movers) == 0 {
		clear(d.factor.share)
		d.stampStill(d.factor.share)
		return
	}
	if !d.based {
		d.base = zeros(d.base, len(d.factor.share))
		d.stampStill(d.base)
		d.based = true
	}
	copy(d.factor.share, d.base)
	for _, i := range d.movers {
		if slot := d.t.places[i].slot; slot >= 0 {
			d.factor.share[slot] += d.y[i]
		}
	}
}

// stampStill puts all but the movers into slots.
func (d *side[T]) stampStill(slots []T) {
	for i := range d.t.places {
		if slot := d.t.places[i].slot; slot >= 0 && !d.moving[i] {
			slots[slot] += d.y[i]
		}
	}
}

// push puts the EMFs into the slots of their branches, towards From.
func (d *side[T]) push() {
	d.flow.still(d.t.p)
	for _, i := range d.sources {
		at, amps := d.t.places[i], d.e[i]*d.y[i]
		if at.slot < 0 {
			continue
		}
		if at.from < at.to {
			amps = -amps
		}
		d.flow.push[at.slot] += amps
	}
}

// volts is the voltage of a node as solved.
func (d *side[T]) volts(n Node) T { return d.flow.volts[d.t.p.position(n)] }

// amps is the current of a branch as solved.
func (d *side[T]) amps(branch int) T {
	at := &d.t.places[branch]
	return (d.flow.volts[at.from] - d.flow.volts[at.to] - d.e[branch]) * d.y[branch]
}
