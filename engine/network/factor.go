package network

import "math"

// scalar is a phasor or a dc value.
type scalar interface{ complex128 | float64 }

// factor holds the admittances of one network, ac or dc, in the slots of a
// pattern.
type factor[T scalar] struct {
	p       *pattern
	share   []T     // by slot: before elimination the branches, after it yᵢ/Σy
	inverse []T     // by position: 1/Σy, 0 where pinned
	pinned  []int32 // positions
	invert  func(T) T
}

func (f *factor[T]) start(p *pattern, invert func(T) T) {
	f.p, f.invert = p, invert
	f.share, f.inverse = zeros(f.share, len(p.row)), zeros(f.inverse, p.n)
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

// eliminate turns the branches in share into the shares of each node.
func (f *factor[T]) eliminate() {
	p := f.p
	f.pinned = f.pinned[:0]
	for k := range p.n {
		column := f.share[p.start[k]:p.start[k+1]]
		var sum T
		for _, y := range column {
			sum += y
		}
		if sum == 0 {
			f.inverse[k] = 0
			f.pinned = append(f.pinned, int32(k))
			continue
		}
		f.inverse[k] = f.invert(sum)
		f.mesh(column, p.update[p.first[k]:p.first[k+1]], f.inverse[k])
	}
}

// mesh replaces the star of one column by branches between its neighbours.
func (f *factor[T]) mesh(column []T, into []int32, inverse T) {
	for i, y := range column {
		rest := column[i+1:]
		if y == 0 {
			into = into[len(rest):]
			continue
		}
		s := y * inverse
		for j, z := range rest {
			f.share[into[j]] += s * z
		}
		into = into[len(rest):]
		column[i] = s
	}
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
