package vet

import (
	"math"
	"slices"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// placements gives expectations for each way that low ≤ nominal ≤ high can lie
// on and between the numbers, those with a width first: they make the better
// examples.
func placements(numbers []float64, domain measurements.Interval, nominal bool) []*trees.Expectation {
	inGap := 2
	if nominal {
		inGap = 3
	}
	points := points(numbers, domain, inGap)
	var out []*trees.Expectation
	for i, low := range points {
		for k := i; k < len(points); k++ {
			between := points[i : k+1]
			if !nominal {
				between = between[:1]
			}
			for _, n := range between {
				out = append(out, &trees.Expectation{Low: low, Nominal: n, High: points[k]})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b *trees.Expectation) int { return narrow(a) - narrow(b) })
	return out
}

// narrow is 1 for an expectation of a single value.
func narrow(e *trees.Expectation) int {
	if e.Low == e.High {
		return 1
	}
	return 0
}

// points gives every number inside the domain and some places in each gap, so
// that as many different values fit there.
func points(numbers []float64, domain measurements.Interval, inGap int) []float64 {
	marks := []float64{domain.Lo}
	for _, x := range numbers {
		if x > domain.Lo && x < domain.Hi {
			marks = append(marks, x)
		}
	}
	last := marks[len(marks)-1]
	end := math.Min(domain.Hi, 4*math.Abs(last)+4)
	marks = append(marks, end)
	var out []float64
	for i, x := range marks[:len(marks)-1] {
		step := (marks[i+1] - x) / float64(inGap+1)
		for k := range inGap + 1 {
			out = append(out, x+float64(k)*step)
		}
	}
	return append(out, end)
}
