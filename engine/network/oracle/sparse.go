package oracle

import "math/big"

// system is the node equations as rows of what is not zero, with the currents.
type system struct {
	rows  []map[int]exact
	amps  []exact
	order []int // nodes as they were eliminated
	spare *big.Float
}

// equations stamps all branches.
func equations(nodes int, lines []Line) *system {
	s := &system{rows: make([]map[int]exact, nodes), amps: make([]exact, nodes), spare: newBig(0)}
	for i := range s.rows {
		s.rows[i], s.amps[i] = map[int]exact{i: newExact(0)}, newExact(0)
	}
	for _, l := range lines {
		s.stamp(l)
	}
	return s
}

// stamp adds a branch to the admittances and to the currents.
func (s *system) stamp(l Line) {
	y := newExact(l.Y)
	i := mul(y, newExact(l.E))
	if l.From != Earth {
		s.less(l.From, l.From, minusOne, y)
		s.take(s.amps[l.From], minusOne, i)
	}
	if l.To != Earth {
		s.less(l.To, l.To, minusOne, y)
		s.take(s.amps[l.To], one, i)
	}
	if l.From != Earth && l.To != Earth {
		s.less(l.From, l.To, one, y)
		s.less(l.To, l.From, one, y)
	}
}

var one, minusOne = newExact(1), newExact(-1)

// less takes a·b from an element, which is made if it is not there.
func (s *system) less(row, column int, a, b exact) {
	at, ok := s.rows[row][column]
	if !ok {
		at = newExact(0)
		s.rows[row][column] = at
	}
	s.take(at, a, b)
}

// take takes a·b from z in place.
func (s *system) take(z, a, b exact) {
	z.re.Sub(z.re, s.spare.Mul(a.re, b.re))
	if a.im.Sign() == 0 && b.im.Sign() == 0 {
		return
	}
	z.re.Add(z.re, s.spare.Mul(a.im, b.im))
	z.im.Sub(z.im, s.spare.Mul(a.re, b.im))
	z.im.Sub(z.im, s.spare.Mul(a.im, b.re))
}

// solve eliminates the nodes, the one with the fewest neighbours first, and
// puts the volts back in. A node that nothing holds is at zero.
func (s *system) solve() []exact {
	gone := make([]bool, len(s.rows))
	for range s.rows {
		k := s.fewest(gone)
		gone[k] = true
		s.order = append(s.order, k)
		s.eliminate(k)
	}
	volts := make([]exact, len(s.rows))
	for i := range volts {
		volts[i] = newExact(0)
	}
	for n := len(s.order) - 1; n >= 0; n-- {
		k := s.order[n]
		for j, y := range s.rows[k] {
			if j != k {
				s.take(s.amps[k], y, volts[j])
			}
		}
		if !s.rows[k][k].isZero() {
			volts[k] = div(s.amps[k], s.rows[k][k])
		}
	}
	return volts
}

func (s *system) fewest(gone []bool) int {
	best := -1
	for k, r := range s.rows {
		if !gone[k] && (best < 0 || len(r) < len(s.rows[best])) {
			best = k
		}
	}
	return best
}

// eliminate takes a node out of the equations of its neighbours.
func (s *system) eliminate(k int) {
	row := s.rows[k]
	for i := range row {
		if i == k || row[k].isZero() {
			continue
		}
		by := div(s.rows[i][k], row[k])
		for j, y := range row {
			if j != k {
				s.less(i, j, by, y)
			}
		}
		s.take(s.amps[i], by, s.amps[k])
		delete(s.rows[i], k)
	}
}
