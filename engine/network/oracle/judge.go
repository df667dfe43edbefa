package oracle

import (
	"errors"
	"fmt"
	"math/cmplx"
)

// Judge holds the volts of a solver, by node, against those ngspice printed:
// each within 1e-6 of it, 1 µV, or 1e-7 of the network's largest voltage.
//
// In a part that only gigohms hold, ngspice keeps a rounding error of
// microvolts, as it adds them to siemens. Where the two differ Solve decides,
// and far more sharply; appealed says that it had to.
func Judge(printed []complex128, ours func(node int) complex128, lines []Line) (appealed bool, err error) {
	most := largest(printed)
	for i, v := range printed {
		if d := cmplx.Abs(ours(i) - v); !(d <= 1e-6*cmplx.Abs(v) || d <= 1e-6 || d <= 1e-7*most) {
			return true, Sharp(Solve(len(printed), lines), ours)
		}
	}
	return false, nil
}

// Sharp holds the volts of a solver against the exact ones: within 1e-11 of the
// largest, or a tenth of a nanovolt. The error names every node that is not.
func Sharp(exact []complex128, ours func(node int) complex128) error {
	most := largest(exact)
	var all []error
	for i, w := range exact {
		if g := ours(i); !(cmplx.Abs(g-w) <= 1e-10+1e-11*most) {
			all = append(all, fmt.Errorf("node %d: got %v, want %v", i, g, w))
		}
	}
	return errors.Join(all...)
}

// largest is the largest magnitude, at least a microvolt.
func largest(volts []complex128) float64 {
	m := 1e-6
	for _, v := range volts {
		m = max(m, cmplx.Abs(v))
	}
	return m
}
