package network

import "slices"

// flow carries sources through an eliminated network.
//
// An EMF is a current pushed through a branch: taken out of the node at one end
// and put into the node at the other. Fed to the two nodes as two currents,
// their sum, which must vanish, would keep a rounding error, and behind the
// gigohms that hold an isolated circuit that error is volts. So the push stays
// with the slot, and elimination of node k, out of which cᵢ and cⱼ are pushed
// and whose shares are sᵢ and sⱼ, makes of them the push sⱼ·cᵢ − sᵢ·cⱼ into i
// out of j: with c = y·e this is y·(eᵢ−eⱼ) of the new branch, whose error is
// that of the EMFs.
type flow[T scalar] struct {
	push   []T     // by slot: amperes out of the column's node into the row's
	marked []bool  // by position: something may be pushed
	path   []int32 // the marked positions, ascending
	fed    []T     // by position: amperes fed in all, 0 off the path
	volts  []T     // by position, earth's is last
	found  []int32 // by position: the round in which its volts were found
	round  int32
	asked  []int32 // the positions found in the last round, in that order
	begun  bool    // something was asked for in this round
}

func (w *flow[T]) start(p *pattern) {
	w.push, w.marked, w.path = zeros(w.push, len(p.row)), zeros(w.marked, p.n), w.path[:0]
	w.fed, w.volts = zeros(w.fed, p.n), zeros(w.volts, p.n+1)
	w.found, w.round, w.asked, w.begun = zeros(w.found, p.n+1), 0, w.asked[:0], false
}

// reach adds a position, and all that elimination carries its push to.
func (w *flow[T]) reach(p *pattern, k int32) {
	for k < int32(p.n) && !w.marked[k] {
		w.marked[k] = true
		w.path = append(w.path, k)
		if p.start[k] == p.start[k+1] {
			break
		}
		k = p.row[p.start[k]]
	}
}

// forget takes everything off the path.
func (w *flow[T]) forget() {
	for _, k := range w.path {
		w.marked[k] = false
		w.fed[k] = 0
	}
	w.path = w.path[:0]
}

// still takes all pushes off the columns of the path.
func (w *flow[T]) still(p *pattern) {
	slices.Sort(w.path)
	for _, k := range w.path {
		clear(w.push[p.start[k]:p.start[k+1]])
	}
}

// spread carries the pushes through the elimination. The volts found before
// hold no longer.
func (w *flow[T]) spread(f *factor[T]) {
	p := f.p
	for _, k := range w.path {
		from, to := p.start[k], p.start[k+1]
		w.fed[k] = w.mesh(f.share[from:to], w.push[from:to], p.update[p.first[k]:p.first[k+1]])
	}
	w.round++
	w.found[p.n] = w.round
	w.begun = false
}

// mesh moves the pushes of one column to the branches that replace it and
// gives what is fed into its node.
func (w *flow[T]) mesh(share, push []T, into []int32) (fed T) {
	for i, c := range push {
		fed -= c
		s := share[i]
		rest := push[i+1:]
		if s != 0 || c != 0 {
			for j, d := range rest {
				w.push[into[j]] += s*d - share[i+1+j]*c
			}
		}
		into = into[len(rest):]
	}
	return fed
}

// at is the voltage of a position, found when it is first asked for. What was
// asked for in the last round is found at once: it will be asked for again.
func (w *flow[T]) at(f *factor[T], k int32) T {
	if w.found[k] != w.round {
		if !w.begun {
			w.begun = true
			w.again(f)
		}
		if w.found[k] != w.round {
			w.find(f, k)
		}
	}
	return w.volts[k]
}

// again finds what was found in the last round: each position comes after those
// that it follows from.
func (w *flow[T]) again(f *factor[T]) {
	for _, k := range w.asked {
		f.back(k, w.fed[k], w.volts)
		w.found[k] = w.round
	}
}

// find finds the volts of a position, and of those that it follows from.
func (w *flow[T]) find(f *factor[T], k int32) {
	for _, r := range f.p.row[f.p.start[k]:f.p.start[k+1]] {
		if w.found[r] != w.round {
			w.find(f, r)
		}
	}
	f.back(k, w.fed[k], w.volts)
	w.found[k] = w.round
	w.asked = append(w.asked, k)
}
