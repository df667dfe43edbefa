package expected

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
)

// Point is one line of a sensor's table.
type Point struct {
	Celsius float64
	Ohms    float64
}

// Table is a sensor known by its published table. Between two lines ln R runs
// straight against 1/T, which is exact for a constant B; nothing is extrapolated.
type Table struct {
	points []Point // rising temperature
	source string
}

// PointError refuses a line of a table. Index counts the points as given, from 0,
// so that a reader of files can name the line.
type PointError struct {
	Index   int
	Message string
}

// Error gives the message alone.
func (e *PointError) Error() string { return e.Message }

// NewTable takes points in rising or falling order of temperature. It wants two or
// more, resistances above zero, no temperature twice, and a resistance that
// always falls or always rises; otherwise a [*PointError].
func NewTable(points []Point, source string) (Table, error) {
	if len(points) < 2 {
		return Table{}, &PointError{len(points) - 1, "a sensor table needs at least two lines of temperature and resistance"}
	}
	order := make([]int, len(points)) // positions as given, by temperature
	for n, p := range points {
		if err := firstError(temperature(p.Celsius), positive("resistance", p.Ohms, "Ω")); err != nil {
			return Table{}, &PointError{n, err.Error()}
		}
		order[n] = n
	}
	sort.SliceStable(order, func(i, j int) bool { return points[order[i]].Celsius < points[order[j]].Celsius })
	sorted := make([]Point, len(points))
	for n, at := range order {
		sorted[n] = points[at]
	}
	if n, message := unsteady(sorted); message != "" {
		return Table{}, &PointError{order[n], message}
	}
	return Table{points: sorted, source: source}, nil
}

// unsteady finds the first point that breaks a one-way table.
func unsteady(sorted []Point) (at int, message string) {
	falls := sorted[1].Ohms < sorted[0].Ohms
	for n := 1; n < len(sorted); n++ {
		before, here := sorted[n-1], sorted[n]
		switch {
		case here.Celsius == before.Celsius:
			return n, fmt.Sprintf("%g °C is given twice: keep one line", here.Celsius)
		case here.Ohms == before.Ohms || here.Ohms < before.Ohms != falls:
			return n, fmt.Sprintf("resistance at %g °C is %g Ω after %g Ω at %g °C: expected it to go one way all through the table", here.Celsius, here.Ohms, before.Ohms, before.Celsius)
		}
	}
	return 0, ""
}

// Ohms interpolates; outside the table is an error that names its ends.
func (t Table) Ohms(celsius float64) (float64, error) {
	first, last := t.points[0].Celsius, t.points[len(t.points)-1].Celsius
	if !(first <= celsius && celsius <= last) {
		return 0, fmt.Errorf("the table runs from %g to %g °C and %g °C is outside it", first, last, celsius)
	}
	n, _ := slices.BinarySearchFunc(t.points, celsius, func(p Point, c float64) int { return cmp.Compare(p.Celsius, c) })
	if t.points[n].Celsius == celsius {
		return t.points[n].Ohms, nil
	}
	a, b := t.points[n-1], t.points[n]
	part := (inverseKelvin(celsius) - inverseKelvin(a.Celsius)) / (inverseKelvin(b.Celsius) - inverseKelvin(a.Celsius))
	return a.Ohms * math.Pow(b.Ohms/a.Ohms, part), nil
}

// Celsius interpolates the other way; outside the table is an error.
func (t Table) Celsius(ohms float64) (float64, error) {
	lo, hi := t.points[0].Ohms, t.points[len(t.points)-1].Ohms
	if !(min(lo, hi) <= ohms && ohms <= max(lo, hi)) {
		return 0, fmt.Errorf("the table runs from %g to %g Ω and %g Ω is outside it", lo, hi, ohms)
	}
	n := 1
	for lo < hi && t.points[n].Ohms < ohms || lo > hi && t.points[n].Ohms > ohms {
		n++
	}
	a, b := t.points[n-1], t.points[n]
	part := math.Log(ohms/a.Ohms) / math.Log(b.Ohms/a.Ohms)
	return 1/(inverseKelvin(a.Celsius)+part*(inverseKelvin(b.Celsius)-inverseKelvin(a.Celsius))) - kelvin, nil
}

// Describe names where the table came from.
func (t Table) Describe() (source, note string) { return t.source, "" }

func inverseKelvin(celsius float64) float64 { return 1 / (celsius + kelvin) }
