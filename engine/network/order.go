package network

import "slices"

// earthed stands for earth among a node's neighbours: it is never eliminated
// and counts for no degree.
const earthed = int32(-1)

// ordering plays the elimination on the graph alone, always taking the node
// that has the fewest neighbours left (minimum degree, Tinney's scheme 2, 1967):
// the fewer there are, the fewer branches take its place.
type ordering struct {
	near [][]int32 // sorted neighbours; earthed comes first
	left []int32   // nodes not yet eliminated
	buf  []int32
}

func newOrdering(n *Network) *ordering {
	o := &ordering{near: make([][]int32, len(n.Names)), left: make([]int32, len(n.Names))}
	for i := range o.left {
		o.left[i] = int32(i)
	}
	for _, b := range n.Branches {
		o.join(int32(b.From), int32(b.To))
		o.join(int32(b.To), int32(b.From))
	}
	return o
}

func (o *ordering) join(a, b int32) {
	if a == b || a == earthed {
		return
	}
	if i, ok := slices.BinarySearch(o.near[a], b); !ok {
		o.near[a] = slices.Insert(o.near[a], i, b)
	}
}

// degree counts a node's neighbours without earth.
func (o *ordering) degree(v int32) int {
	d := len(o.near[v])
	if d > 0 && o.near[v][0] == earthed {
		d--
	}
	return d
}

// next takes the node of least degree out of those that are left.
func (o *ordering) next() int32 {
	best, least := 0, len(o.near)+1
	for i, v := range o.left {
		if d := o.degree(v); d < least {
			best, least = i, d
		}
		if least <= 1 {
			break
		}
	}
	v := o.left[best]
	o.left = slices.Delete(o.left, best, best+1)
	return v
}

// eliminate joins all neighbours of v to each other and gives them.
func (o *ordering) eliminate(v int32) []int32 {
	near := o.near[v]
	for _, a := range near {
		if a != earthed {
			o.merge(a, v, near)
		}
	}
	return near
}

// merge makes near the neighbours of a too, v and a itself left out.
func (o *ordering) merge(a, v int32, near []int32) {
	old := o.near[a]
	out := o.buf[:0]
	for i, j := 0, 0; i < len(old) || j < len(near); {
		var w int32
		if j == len(near) || i < len(old) && old[i] <= near[j] {
			w = old[i]
			if j < len(near) && near[j] == w {
				j++
			}
			i++
		} else {
			w = near[j]
			j++
		}
		if w != v && w != a {
			out = append(out, w)
		}
	}
	o.buf = out
	o.near[a] = append(old[:0], out...)
}
