package vet

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// maxNumbers bounds the numbers an expectation is placed among: the ways grow
// with their square. Where the nominal value counts it is half, for the cube.
const maxNumbers = 16

// placeWork is what placing one expectation takes, in runs of a condition.
const placeWork = 40

var (
	literal    = regexp.MustCompile(`[0-9]+(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?`)
	expectName = regexp.MustCompile(`\bexpected\.(low|nominal|high)\b`)
	arithmetic = regexp.MustCompile(`expected\.[a-z]+\s*[-+*/]|[-+*/]\s*expected\.`)
)

// spread gives the situation for every expectation that could be met. Where
// the expectation depends on no earlier reading there is the one.
func (v *vetting) spread(c *trees.BoundCheck, s situation, conditions []string) []situation {
	if len(c.Uses) == 0 || s.Expected == nil {
		return []situation{s}
	}
	edges := v.edgeTexts(c.Check.Scale, s.Modes)
	own := strings.Join(conditions, "\n")
	if !literal.MatchString(own) && !expectName.MatchString(own) {
		own = "" // bands alone: every such step is spread in the same way
	}
	var out []situation
	for _, e := range v.expectations(c, s, edges, own) {
		t := s
		t.Expected, t.supposed = e, true
		out = append(out, t)
	}
	return out
}

// expectations gives one expectation for each order in which its numbers, the
// edges of the bands and the numbers of the conditions can come.
func (v *vetting) expectations(c *trees.BoundCheck, s situation, edges []string, own string) []*trees.Expectation {
	key := c.Check.Scale + "\n" + string(c.Quantity) + "\n" + fmt.Sprint(s.Modes) + s.Jurisdiction.ID + "\n" + own
	if known, ok := v.spreads[key]; ok {
		return known
	}
	text := strings.Join(append(append([]string{}, edges...), own), "\n")
	nominal, most := strings.Contains(text, "expected.nominal"), maxNumbers
	if nominal {
		most /= 2
	}
	places, whole := among(text, s.Jurisdiction, most)
	if !whole {
		v.leave(fmt.Sprintf("some places of what the check %s expects: it is compared with more than %d numbers", quoted(c.Check.ID), most))
	}
	ways := placements(places, c.Quantity.Domain(), nominal)
	numbers, expected := constants(own, s.Jurisdiction), expectName.MatchString(own)
	v.work += (placeWork + 2*len(numbers)) * len(ways)
	seen := map[string]bool{}
	var out []*trees.Expectation
	for _, e := range ways {
		t := s
		t.Expected = e
		if order := v.order(c, t, slices.Clone(numbers), expected); !seen[order] {
			seen[order] = true
			out = append(out, e)
		}
	}
	v.spreads[key] = out
	return out
}

// order says in which order the edges of the bands and other numbers come.
func (v *vetting) order(c *trees.BoundCheck, s situation, numbers []float64, expected bool) string {
	set, err := v.set.Holding(c, "true", s.Situation)
	if err != nil {
		return "" // the same for all: reported when the branches are proved
	}
	for _, x := range set.Variables {
		for _, b := range x.Bands {
			numbers = append(numbers, b.To)
		}
	}
	if expected {
		numbers = append(numbers, s.Expected.Low, s.Expected.Nominal, s.Expected.High)
	}
	ranked := slices.Clone(numbers)
	slices.Sort(ranked)
	ranked = slices.Compact(ranked)
	var order []byte
	for _, x := range numbers {
		rank, _ := slices.BinarySearch(ranked, x)
		order = append(order, byte(rank), byte(rank>>8))
	}
	return string(order)
}

// edgeTexts lists the edges of the bands that a check is judged by.
func (v *vetting) edgeTexts(scale string, modes map[string]string) []string {
	sc := v.set.Scales[scale]
	if sc == nil {
		return nil
	}
	var out []string
	for _, as := range sortedKeys(modes) {
		for _, b := range sc.ForMode(modes[as]) {
			if !b.Last && !slices.Contains(out, b.To.Value) {
				out = append(out, b.To.Value)
			}
		}
	}
	return out
}

// constants gives the numbers in a text, with either sign where there is a
// minus, and those of the mains where they are named; sorted.
func constants(text string, j *trees.Jurisdiction) []float64 {
	var out []float64
	for _, t := range literal.FindAllString(text, -1) {
		if x, err := strconv.ParseFloat(t, 64); err == nil {
			out = append(out, x)
			if strings.Contains(text, "-") {
				out = append(out, -x)
			}
		}
	}
	for name, x := range map[string]float64{"mains.low": j.Low, "mains.nominal": j.Nominal, "mains.high": j.High} {
		if strings.Contains(text, name) {
			out = append(out, x)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// among gives the numbers that an expectation is placed among: those of the
// text, and where the text reckons with an expectation also what two of them
// make, as far as there is room: "expected.low / 4" meets 300 where
// expected.low is 1200. Whole says whether all of the text's own are there.
func among(text string, j *trees.Jurisdiction, most int) (numbers []float64, whole bool) {
	own := constants(text, j)
	if len(own) >= most || !arithmetic.MatchString(text) {
		return thin(own, most), len(own) <= most
	}
	var made []float64
	for _, a := range own {
		for _, b := range own {
			for _, x := range []float64{a * b, a / b, a - b, a + b} {
				if !math.IsNaN(x) && !math.IsInf(x, 0) {
					made = append(made, x)
				}
			}
		}
	}
	slices.Sort(made)
	own = append(own, thin(slices.Compact(made), most-len(own))...)
	slices.Sort(own)
	return slices.Compact(own), true
}

// thin leaves n of sorted numbers, evenly chosen.
func thin(all []float64, n int) []float64 {
	if len(all) <= n {
		return all
	}
	var out []float64
	for i := range n {
		out = append(out, all[i*(len(all)-1)/max(n-1, 1)])
	}
	return out
}

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
