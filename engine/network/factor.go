package network

import "math"

// scalar is a phasor or a dc value.
type scalar interface{ complex128 | float64 }

// factor holds the admittances of one network, ac or dc, in the slots of a
// pattern.
type factor[T scalar] struct {
	p       *pattern
	sum     []T // by slot: the branches, and what earlier eliminations put beside them
	share   []T // by slot: yᵢ/Σy of its column
	inverse []T // by position: 1/Σy, 0 where pinned
	invert  func(T) T
}

func (f *factor[T]) start(p *pattern, invert func(T) T) {
	f.p, f.invert = p, invert
	f.sum, f.share, f.inverse = zeros(f.sum, len(p.row)), zeros(f.share, len(p.row)), zeros(f.inverse, p.n)
}

// invertPhasor is 1/y. Admittances lie far within ±10¹⁵⁰, so that the square
// can neither overflow nor vanish, and the run time's careful division is not
// needed.
func invertPhasor(y complex128) complex128 {
	re, im := real(y), imag(y)
	d := 1 / (re*re + im*im)
	return complex(re*d, -im*d)
}

func invertReal(y float64) float64 { return 1 / y }

// eliminate turns the branches that stand in the sums of one column into the
// shares of its node: first come the branches that take the place of earlier
// nodes, which must be eliminated.
func (f *factor[T]) eliminate(k int) {
	p := f.p
	for _, c := range p.comes[p.before[k]:p.before[k+1]] {
		f.mesh(c)
	}
	from, to := p.start[k], p.start[k+1]
	var sum T
	for _, y := range f.sum[from:to] {
		sum += y
	}
	if sum == 0 {
		f.inverse[k] = 0
		clear(f.share[from:to])
		return
	}
	inverse := f.invert(sum)
	f.inverse[k] = inverse
	for i, y := range f.sum[from:to] {
		f.share[int(from)+i] = y * inverse
	}
}

// mesh adds the branches between one neighbour of an eliminated node and its
// later ones.
func (f *factor[T]) mesh(c come) {
	s := f.share[c.slot]
	if s == 0 {
		return
	}
	into := f.p.update[c.update : c.update+c.count]
	for i, y := range f.sum[c.slot+1 : c.slot+1+c.count] {
		f.sum[into[i]] += s * y
	}
}

// pinned lists the positions that nothing joins to a later one or to earth:
// each holds its island at nought.
func (f *factor[T]) pinned() (out []int32) {
	for k, inverse := range f.inverse {
		if inverse == 0 {
			out = append(out, int32(k))
		}
	}
	return out
}

// back gives the volts of one position from those of its neighbours, which all
// come later: their mean, weighed by the shares, and what is fed in besides.
func (f *factor[T]) back(k int32, fed T, volts []T) {
	p := f.p
	v := fed * f.inverse[k]
	rows := p.row[p.start[k]:p.start[k+1]]
	for j, s := range f.share[p.start[k]:p.start[k+1]] {
		v += s * volts[rows[j]]
	}
	volts[k] = v
}

// root is the position of the pinned node of the island a position belongs
// to, or earth's position if it hangs on earth.
func (f *factor[T]) root(k int32) int32 {
	for k < int32(f.p.n) {
		slot := f.strongest(k)
		if slot < 0 {
			break
		}
		k = f.p.row[slot]
	}
	return k
}

// strongest is the slot that most of a node's current goes by, -1 if it is
// pinned.
func (f *factor[T]) strongest(k int32) int32 {
	best, most := int32(-1), 0.0
	for j := f.p.start[k]; j < f.p.start[k+1]; j++ {
		if m := size(f.share[j]); m > most {
			best, most = j, m
		}
	}
	return best
}

// size is a measure of magnitude that needs no square root.
func size[T scalar](x T) float64 {
	switch v := any(x).(type) {
	case complex128:
		return math.Abs(real(v)) + math.Abs(imag(v))
	case float64:
		return math.Abs(v)
	}
	return 0
}
