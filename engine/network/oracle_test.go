package network

import (
	"math/big"
)

// digits is the precision of the oracle in bits.
const digits = 240

// exact is a complex number of digits bits.
type exact struct{ re, im *big.Float }

func newExact(z complex128) exact { return exact{newBig(real(z)), newBig(imag(z))} }
func newBig(x float64) *big.Float { return new(big.Float).SetPrec(digits).SetFloat64(x) }
func (a exact) isZero() bool      { return a.re.Sign() == 0 && a.im.Sign() == 0 }
func (a exact) near() complex128 {
	re, _ := a.re.Float64()
	im, _ := a.im.Float64()
	return complex(re, im)
}

func add(a, b exact) exact {
	z := newExact(0)
	z.re.Add(a.re, b.re)
	z.im.Add(a.im, b.im)
	return z
}

func sub(a, b exact) exact {
	z := newExact(0)
	z.re.Sub(a.re, b.re)
	z.im.Sub(a.im, b.im)
	return z
}

func mul(a, b exact) exact {
	z, t := newExact(0), newBig(0)
	z.re.Sub(z.re.Mul(a.re, b.re), t.Mul(a.im, b.im))
	u := newBig(0)
	z.im.Add(z.im.Mul(a.re, b.im), u.Mul(a.im, b.re))
	return z
}

func square(a exact) *big.Float {
	re, im := newBig(0), newBig(0)
	return re.Add(re.Mul(a.re, a.re), im.Mul(a.im, a.im))
}

func div(a, b exact) exact {
	z := mul(a, exact{b.re, new(big.Float).Neg(b.im)})
	d := square(b)
	z.re.Quo(z.re, d)
	z.im.Quo(z.im, d)
	return z
}

// line is what the oracle takes of a branch: one of its two networks.
type line struct {
	from, to Node
	y, e     complex128
}

func linesAC(n *Network) []line {
	var out []line
	for _, b := range n.Branches {
		out = append(out, line{b.From, b.To, b.Y, b.E})
	}
	return out
}

func linesDC(n *Network) []line {
	var out []line
	for _, b := range n.Branches {
		out = append(out, line{b.From, b.To, complex(b.G, 0), complex(b.EDC, 0)})
	}
	return out
}

// oracle solves the node equations as dense matrices by Gaussian elimination
// with full precision: another method and other digits than the solver's.
func oracle(nodes int, lines []line) []complex128 {
	out := make([]complex128, nodes)
	for i, v := range solved(admittances(nodes, lines)) {
		out[i] = v.near()
	}
	return out
}

// admittances are the node equations, the currents in the last column.
func admittances(nodes int, lines []line) [][]exact {
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
func stamp(m [][]exact, l line) {
	y := newExact(l.y)
	i := mul(y, newExact(l.e))
	last := len(m)
	if l.from != Earth {
		m[l.from][l.from] = add(m[l.from][l.from], y)
		m[l.from][last] = add(m[l.from][last], i)
	}
	if l.to != Earth {
		m[l.to][l.to] = add(m[l.to][l.to], y)
		m[l.to][last] = sub(m[l.to][last], i)
	}
	if l.from != Earth && l.to != Earth {
		m[l.from][l.to] = sub(m[l.from][l.to], y)
		m[l.to][l.from] = sub(m[l.to][l.from], y)
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
