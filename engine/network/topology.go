package network

import (
	"fmt"
	"slices"
)

// topology is how the branches of a network stand in a pattern. It is never
// changed once made and is shared by all solvers of networks joined alike.
type topology struct {
	p      *pattern
	places []place
	// branches are those that stand in a slot, by slot, and first is where
	// those of a slot begin; one longer than there are slots.
	branches, first []int32
}

// place is where a branch stands: the positions of its ends and its slot, -1
// for a branch from a node to itself.
type place struct {
	from, to, slot int32
}

// lay finds the places of all branches, and the pairs of positions that the
// pattern has no slot for. Where a branch stands as it does in like, which may
// be nil, its slot is found without a search.
func lay(p *pattern, n *Network, like *topology) (t *topology, missing [][2]int32) {
	n.check()
	t = &topology{p: p, places: make([]place, len(n.Branches))}
	for i := range n.Branches {
		from, to := p.position(n.Branches[i].From), p.position(n.Branches[i].To)
		slot, ok := like.slotIn(p, i, from, to)
		if !ok {
			slot, ok = p.slot(from, to)
		}
		if !ok {
			missing = append(missing, [2]int32{min(from, to), max(from, to)})
		}
		t.places[i] = place{from, to, slot}
	}
	if len(missing) == 0 {
		t.sort()
	}
	return t, missing
}

// sort lists the branches of every slot, in the order of their numbers.
func (t *topology) sort() {
	t.first = make([]int32, len(t.p.row)+1)
	for _, at := range t.places {
		if at.slot >= 0 {
			t.first[at.slot+1]++
		}
	}
	for s := range t.p.row {
		t.first[s+1] += t.first[s]
	}
	t.branches = make([]int32, t.first[len(t.p.row)])
	next := slices.Clone(t.first)
	for i, at := range t.places {
		if at.slot >= 0 {
			t.branches[next[at.slot]] = int32(i)
			next[at.slot]++
		}
	}
}

// slotIn is the slot of a branch in a wider pattern of the same order, from
// where it stands in t: false if it stands elsewhere or its column was widened.
func (t *topology) slotIn(p *pattern, branch int, from, to int32) (int32, bool) {
	if t == nil || branch >= len(t.places) {
		return 0, false
	}
	at := t.places[branch]
	if at.from != from || at.to != to {
		return 0, false
	}
	if at.slot < 0 {
		return -1, true
	}
	k, q := min(from, to), t.p
	if p.start[k+1]-p.start[k] != q.start[k+1]-q.start[k] {
		return 0, false
	}
	return at.slot - q.start[k] + p.start[k], true
}

// fits reports whether the branches of n stand where those of t do.
func (t *topology) fits(n *Network) bool {
	if len(t.places) != len(n.Branches) {
		return false
	}
	for i := range n.Branches {
		b, at := &n.Branches[i], &t.places[i]
		if t.p.position(b.From) != at.from || t.p.position(b.To) != at.to {
			return false
		}
	}
	return true
}

// check panics where a branch names a node that is not there.
func (n *Network) check() {
	for i := range n.Branches {
		for _, v := range [...]Node{n.Branches[i].From, n.Branches[i].To} {
			if v < Earth || int(v) >= len(n.Names) {
				panic(fmt.Sprintf("network: branch %d %q is at node %d, expected %d to %d",
					i, n.Branches[i].Name, v, Earth, len(n.Names)-1))
			}
		}
	}
}
