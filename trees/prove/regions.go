package prove

// region is a box of cells: from and to, both included, in each dimension.
type region struct{ from, to []int }

// regions covers the cells for which wanted is true with boxes that do not overlap, each as long as it can be in the
// last dimension, then in the one before, and so on.
func (p *Partition) regions(wanted func(cell int) bool, most int) []region {
	sizes := p.sizes()
	taken := make([]bool, len(p.truth))
	var found []region
	for cell := range p.truth {
		if taken[cell] || !wanted(cell) {
			continue
		}
		if len(found) == most {
			break
		}
		r := point(cell, sizes)
		for d := len(sizes) - 1; d >= 0; d-- {
			for r.to[d]+1 < sizes[d] && r.layer(d, sizes, func(c int) bool { return !taken[c] && wanted(c) }) {
				r.to[d]++
			}
		}
		r.all(0, 0, sizes, func(c int) bool { taken[c] = true; return true })
		found = append(found, r)
	}
	return found
}

func point(cell int, sizes []int) region {
	at := make([]int, len(sizes))
	for d := len(sizes) - 1; d >= 0; d-- {
		at[d] = cell % sizes[d]
		cell /= sizes[d]
	}
	return region{at, append([]int(nil), at...)}
}

// layer says whether good holds for every cell just beyond the region in one dimension.
func (r region) layer(d int, sizes []int, good func(cell int) bool) bool {
	from, to := append([]int(nil), r.from...), append([]int(nil), r.to...)
	from[d], to[d] = r.to[d]+1, r.to[d]+1
	return region{from, to}.all(0, 0, sizes, good)
}

// all says whether good holds for every cell of the region.
func (r region) all(d, offset int, sizes []int, good func(cell int) bool) bool {
	if d == len(sizes) {
		return good(offset)
	}
	for i := r.from[d]; i <= r.to[d]; i++ {
		if !r.all(d+1, offset*sizes[d]+i, sizes, good) {
			return false
		}
	}
	return true
}
