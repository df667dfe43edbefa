// Package oracle judges package network by other means, for tests only: Solve
// is a dense elimination of 240 bits, Read takes in what ngspice printed for a
// netlist, Judge holds a solver against it. Start with Judge.
package oracle

// Earth is the node that is true earth.
const Earth = -1

// Line is a branch of one network, ac or dc: Y siemens in series with an EMF of
// E volts, its plus at From. Nodes count from 0.
type Line struct {
	From, To int
	Y, E     complex128
}

// Solve gives the volts of each node against earth, by Gaussian elimination of
// the dense node equations with full precision: another method and other digits
// than the solver's. A part that floats must be held by the caller.
func Solve(nodes int, lines []Line) []complex128 {
	return near(solved(admittances(nodes, lines)))
}

// Between gives the volts from a to b, EMFs off, for one ampere into a and out
// of b: the impedance.
func Between(nodes int, lines []Line, a, b int) complex128 {
	dead := make([]Line, len(lines))
	for i, l := range lines {
		dead[i] = Line{l.From, l.To, l.Y, 0}
	}
	m := admittances(nodes, dead)
	if a == b {
		return 0
	}
	if a != Earth {
		m[a][nodes] = newExact(1)
	}
	if b != Earth {
		m[b][nodes] = newExact(-1)
	}
	v := append(solved(m), newExact(0))
	return sub(v[(a+nodes+1)%(nodes+1)], v[(b+nodes+1)%(nodes+1)]).near()
}

func near(volts []exact) []complex128 {
	out := make([]complex128, len(volts))
	for i, v := range volts {
		out[i] = v.near()
	}
	return out
}

// admittances are the node equations, the currents in the last column.
func admittances(nodes int, lines []Line) [][]exact {
	m := make([][]exact, nodes)
	for i := range m {
		m[i] = make([]exact, nodes+1)
		for j := range m[i] {
			m[i][j] = newExact(0)
		}
	}
	for _, l := range lines {
		stamp(m, l)
	}
	return m
}

func solved(m [][]exact) []exact {
	reduce(m)
	out := make([]exact, len(m))
	for i := range out {
		out[i] = newExact(0)
		if !m[i][i].isZero() {
			out[i] = div(m[i][len(m)], m[i][i])
		}
	}
	return out
}

// stamp adds a branch to the matrix of admittances and to its last column, the
// currents.
func stamp(m [][]exact, l Line) {
	y := newExact(l.Y)
	i := mul(y, newExact(l.E))
	last := len(m)
	if l.From != Earth {
		m[l.From][l.From] = add(m[l.From][l.From], y)
		m[l.From][last] = add(m[l.From][last], i)
	}
	if l.To != Earth {
		m[l.To][l.To] = add(m[l.To][l.To], y)
		m[l.To][last] = sub(m[l.To][last], i)
	}
	if l.From != Earth && l.To != Earth {
		m[l.From][l.To] = sub(m[l.From][l.To], y)
		m[l.To][l.From] = sub(m[l.To][l.From], y)
	}
}

// reduce makes the matrix diagonal (Gauss–Jordan, largest pivot of the column).
func reduce(m [][]exact) {
	for k := range m {
		best := k
		for i := k; i < len(m); i++ {
			if square(m[i][k]).Cmp(square(m[best][k])) > 0 {
				best = i
			}
		}
		m[k], m[best] = m[best], m[k]
		for i := range m {
			if i == k || m[i][k].isZero() {
				continue
			}
			by := div(m[i][k], m[k][k])
			for j := k; j < len(m[i]); j++ {
				m[i][j] = sub(m[i][j], mul(by, m[k][j]))
			}
		}
	}
}
