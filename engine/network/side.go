package network

import "slices"

// side is the ac or the dc half of a solver.
type side[T scalar] struct {
	t        *topology
	y, e     []T     // by branch: siemens, and the volts of its EMF
	sources  []int32 // the branches that have, or had, an EMF
	dirty    []bool  // by position: something before it or at it has changed
	lowest   int     // the first of the dirty
	restated bool    // an EMF has changed since the volts were found
	factor   factor[T]
	flow     flow[T] // of the sources
	meter    column[T]
	seen     column[T]
}

// start begins anew on a topology.
func (d *side[T]) start(t *topology, invert func(T) T) {
	branches := len(t.places)
	d.t = t
	d.y, d.e = zeros(d.y, branches), zeros(d.e, branches)
	d.sources = d.sources[:0]
	d.factor.start(t.p, invert)
	d.flow.start(t.p)
	d.dirty, d.lowest = zeros(d.dirty, t.p.n), 0
	for k := range d.dirty {
		d.dirty[k] = true
	}
	d.meter.known, d.seen.known = false, false
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

// set changes an admittance. What its elimination carries it to is dirty.
func (d *side[T]) set(branch int, y T) {
	if d.y[branch] == y {
		return
	}
	d.y[branch] = y
	at, p := &d.t.places[branch], d.t.p
	if at.slot < 0 {
		return
	}
	k := int(min(at.from, at.to))
	d.lowest = min(d.lowest, k)
	for k < p.n && !d.dirty[k] {
		d.dirty[k] = true
		if p.start[k] == p.start[k+1] {
			return
		}
		k = int(p.row[p.start[k]])
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

// altered says whether an admittance has changed since the volts were found.
func (d *side[T]) altered() bool { return d.lowest < d.t.p.n }

// solve finds the volts, as far as something changed.
func (d *side[T]) solve() {
	altered := d.altered()
	if altered {
		d.eliminate()
		d.meter.known, d.seen.known = false, false
	}
	if altered || d.restated {
		d.push()
		d.flow.spread(&d.factor)
	}
	d.restated = false
}

// eliminate brings every dirty column to the branches as they are, and
// eliminates it; the others stay as they were.
func (d *side[T]) eliminate() {
	f, p := &d.factor, d.t.p
	for k := d.lowest; k < p.n; k++ {
		if !d.dirty[k] {
			continue
		}
		d.dirty[k] = false
		from, to := p.start[k], p.start[k+1]
		clear(f.sum[from:to])
		for _, i := range d.t.branches[d.t.first[from]:d.t.first[to]] {
			f.sum[d.t.places[i].slot] += d.y[i]
		}
		f.eliminate(k)
	}
	d.lowest = p.n
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
func (d *side[T]) volts(n Node) T { return d.at(d.t.p.position(n)) }

// at is the voltage of a position as solved.
func (d *side[T]) at(k int32) T { return d.flow.at(&d.factor, k) }

// amps is the current of a branch as solved.
func (d *side[T]) amps(branch int) T {
	at := &d.t.places[branch]
	return (d.at(at.from) - d.at(at.to) - d.e[branch]) * d.y[branch]
}
