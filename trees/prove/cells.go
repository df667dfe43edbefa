package prove

import (
	"math"
	"slices"
	"sort"
)

// axis is one reading's range, cut into cells: each threshold alone, and each gap between two of them.
type axis struct {
	variable Variable
	cells    []cell
}

// cell is a range within which no decided condition changes.
type cell struct {
	Range
	at    float64 // the reading the conditions are run at
	boxed any     // the same, ready for the machine
}

// newAxis cuts a reading's range at the thresholds.
func newAxis(v Variable, at []float64) axis {
	at = append(at, v.Max) // OL stands alone; a finite end does no harm
	at = slices.DeleteFunc(at, func(x float64) bool { return !(x >= v.Min && x <= v.Max) })
	sort.Float64s(at)
	at = slices.Compact(at)
	a := axis{variable: v}
	before := Range{Lo: v.Min, LoIn: true}
	for _, x := range at {
		before.Hi = x
		if before.Lo < x && (before.LoIn || math.Nextafter(before.Lo, x) < x) {
			a.add(before)
		}
		a.add(Range{x, x, true, true})
		before = Range{Lo: x}
	}
	return a
}

func (a *axis) add(r Range) {
	x := r.example()
	a.cells = append(a.cells, cell{Range: r, at: x, boxed: x})
}

// strip is neighbouring cells, both included, within which one condition does not change.
type strip struct{ first, last int }

// strips joins the cells between a condition's own thresholds: those of the other conditions do not touch it. The
// upper end stands alone, for OL.
func (a *axis) strips(own []float64) []strip {
	var all []strip
	joins := false
	for i, c := range a.cells {
		alone := c.Lo == c.Hi && (c.Lo == a.variable.Max || slices.Contains(own, c.Lo))
		if joins && !alone {
			all[len(all)-1].last = i
		} else {
			all = append(all, strip{i, i})
		}
		joins = !alone
	}
	return all
}

// touched gives the first and the last cell that the readings from lo to hi touch.
func (a axis) touched(lo, hi float64) (first, last int) {
	first = sort.Search(len(a.cells), func(i int) bool {
		c := a.cells[i]
		return c.Hi > lo || c.HiIn && c.Hi == lo
	})
	last = sort.Search(len(a.cells), func(i int) bool {
		c := a.cells[i]
		return c.Lo > hi || !c.LoIn && c.Lo == hi
	}) - 1
	return first, last
}

// within says whether a reading is in a band, -1 being no band.
func (v Variable) within(name string, x float64) bool {
	for i, b := range v.Bands {
		if b.Name == name && x >= v.Min && v.aboveBand(i-1, x) && !v.aboveBand(i, x) {
			return true
		}
	}
	return false
}

// aboveBand says whether a reading is beyond the upper edge of a band. Every reading is beyond the edge of none.
func (v Variable) aboveBand(i int, x float64) bool {
	switch {
	case i < 0:
		return true
	case i == len(v.Bands)-1 && math.IsInf(v.Bands[i].To, 1):
		return false
	case v.Bands[i].Including:
		return x > v.Bands[i].To
	}
	return x >= v.Bands[i].To
}

// edges gives the readings at which a band begins and ends.
func (v Variable) edges(name string) []float64 {
	var at []float64
	for i, b := range v.Bands {
		if b.Name == name {
			at = append(at, b.To)
			if i > 0 {
				at = append(at, v.Bands[i-1].To)
			}
		}
	}
	return at
}
