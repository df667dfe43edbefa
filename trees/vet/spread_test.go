package vet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"faultwalk/measurements"
	"faultwalk/trees"
)

var ohms = measurements.Interval{Lo: 0, Hi: math.Inf(1)}

// side is where a value lies among numbers: below, on or above each.
func side(x float64, numbers []float64) string {
	var b strings.Builder
	for _, n := range numbers {
		switch {
		case x < n:
			b.WriteByte('<')
		case x == n:
			b.WriteByte('=')
		default:
			b.WriteByte('>')
		}
	}
	return b.String()
}

// All orders are counted by hand: two values among n numbers have 2n+1 places
// each, and where both are in one gap the first is below or equal.
func TestAnExpectationIsPlacedInEveryOrderAmongTheNumbers(t *testing.T) {
	t.Parallel()
	numbers := []float64{300, 500_000}
	met := map[string]bool{}
	for _, e := range placements(numbers, ohms, false) {
		if e.Low > e.High || e.Nominal < e.Low || e.Nominal > e.High {
			t.Fatalf("%+v does not rise", *e)
		}
		met[fmt.Sprint(side(e.Low, numbers), side(e.High, numbers), e.Low == e.High)] = true
	}
	// 5 places: 10 pairs of different ones, 3 gaps with room for two, 5 equal
	if len(met) != 10+3+5 {
		t.Errorf("%d orders; want 18", len(met))
	}
	met = map[string]bool{}
	for _, e := range placements(numbers, ohms, true) {
		met[fmt.Sprint(side(e.Low, numbers), side(e.Nominal, numbers), side(e.High, numbers), e.Low == e.Nominal, e.Nominal == e.High)] = true
	}
	// three values: 10 with three places; 10 pairs of places, the pair's gaps counted twice; all in one place
	want := 0
	gap := map[int]bool{0: true, 2: true, 4: true}
	for i := range 5 {
		for j := i; j < 5; j++ {
			for k := j; k < 5; k++ {
				ways := 1
				if i == j && j == k {
					ways = map[bool]int{true: 4, false: 1}[gap[i]] // both apart, either equal, all equal
				} else if i == j && gap[i] || j == k && gap[j] {
					ways = 2
				}
				want += ways
			}
		}
	}
	if len(met) != want {
		t.Errorf("%d orders of three; want %d", len(met), want)
	}
}

func TestNumbersOfATextAreFoundWithWhatTheyMake(t *testing.T) {
	t.Parallel()
	j := &trees.Jurisdiction{Low: 216.2, Nominal: 230, High: 253}
	for _, c := range []struct {
		text  string
		most  int
		want  []float64
		whole bool
	}{
		{"min(300, expected.low)\nmax(500000, expected.high)", 16, []float64{300, 500000}, true},
		{"reading < mains.low or reading > 2.5e3", 16, []float64{216.2, 2500}, true},
		{"reading < -1", 16, []float64{-1, 1}, true},
		{"expected.low / 4\n300", 16, []float64{4.0 / 300, 1, 4, 8, 16, 75, 296, 300, 304, 600, 1200, 90000, -296, 0}, true},
		{"1 2 3 4 5", 3, []float64{1, 3, 5}, false},
	} {
		got, whole := among(c.text, j, c.most)
		slices.Sort(c.want)
		if !slices.Equal(got, c.want) || whole != c.whole {
			t.Errorf("%q gives %v, whole %v; want %v, %v", c.text, got, whole, c.want, c.whole)
		}
	}
}
