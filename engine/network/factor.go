package network

// scalar is a phasor or a dc value.
type scalar interface{ complex128 | float64 }

// factor holds the values of one network, ac or dc, in the slots of a pattern.
type factor[T scalar] struct {
	p       *pattern
	share   []T // before elimination the branches, after it yᵢ/Σy
	inverse []T // 1/Σy by position; 0 where pinned
	work    []T // by position, and earth
	pinned  []int32
	invert  func(T) T
}

func newFactor[T scalar](p *pattern, invert func(T) T) factor[T] {
	return factor[T]{
		p: p, invert: invert,
		share: make([]T, len(p.row)), inverse: make([]T, p.n), work: make([]T, p.n+1),
	}
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
	u := 0
	for k := range p.n {
		column := f.share[p.start[k]:p.start[k+1]]
		m := len(column)
		into := p.update[u : u+m*(m-1)/2]
		u += len(into)
		var sum T
		for _, y := range column {
			sum += y
		}
		if sum == 0 {
			f.inverse[k] = 0
			f.pinned = append(f.pinned, p.node[k])
			continue
		}
		f.inverse[k] = f.invert(sum)
		f.mesh(column, into, f.inverse[k])
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

// solve turns the currents fed into each node, by node, into volts, by node;
// both may be the same slice.
func (f *factor[T]) solve(fed, volts []T) {
	p, t := f.p, f.work
	for k, v := range p.node {
		t[k] = fed[v]
	}
	for k := range p.n {
		i := t[k]
		if i == 0 {
			continue
		}
		rows := p.row[p.start[k]:p.start[k+1]]
		for j, s := range f.share[p.start[k]:p.start[k+1]] {
			t[rows[j]] += s * i
		}
	}
	f.back()
	for k, v := range p.node {
		volts[v] = t[k]
	}
}

// back goes the order backwards: each node's volts are the mean of its
// neighbours', weighed by its shares, and what is fed into it besides.
func (f *factor[T]) back() {
	p, t := f.p, f.work
	t[p.n] = 0
	for k := p.n - 1; k >= 0; k-- {
		v := t[k] * f.inverse[k]
		rows := p.row[p.start[k]:p.start[k+1]]
		for j, s := range f.share[p.start[k]:p.start[k+1]] {
			v += s * t[rows[j]]
		}
		t[k] = v
	}
}

// root is the position of the pinned node of the island a position belongs
// to, or earth's position if it hangs on earth.
func (f *factor[T]) root(k int32) int32 {
	p := f.p
	for k < int32(p.n) && f.inverse[k] != 0 {
		rows := p.row[p.start[k]:p.start[k+1]]
		for j, s := range f.share[p.start[k]:p.start[k+1]] {
			if s != 0 {
				k = rows[j]
				break
			}
		}
	}
	return k
}
