package oracle

import "math/big"

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
