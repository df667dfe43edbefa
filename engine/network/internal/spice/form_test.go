package spice_test

import (
	"math"
	"math/cmplx"
	"testing"

	"faultwalk/engine/network/internal/spice"
)

func TestFormsGiveTheirAdmittanceBack(t *testing.T) {
	t.Parallel()
	omega := 2 * math.Pi * 50
	for _, b := range []spice.Branch{{Y: 2, G: 3}, {Y: 1e-3i}, {Y: 1e-3 + 2e-3i, G: 1}, {Y: 1 / (100 - 3000i)}, {Y: 1 / (100 + 3000i), G: 1}, {Y: 1 / (100 + 3000i)}} {
		f := spice.FormOf(b.Y, b.G)
		v := f.Values(b.Y, b.G, 50)
		r, c, l := complex(v.OhmsAC, 0), complex(0, omega*v.Farads), complex(0, omega*v.Henries)
		y := [...]complex128{1 / r, c, 1/r + c, 1 / (r + 1/c), 1 / (r + l), 1 / (r + l + 1/c)}[f]
		if cmplx.Abs(y-b.Y) > 1e-12*cmplx.Abs(b.Y) {
			t.Errorf("form %d of %v gives %v back", f, b.Y, y)
		}
	}
}
