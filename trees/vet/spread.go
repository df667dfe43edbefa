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

// maxNumbers bounds the numbers an expectation is placed among; the ways grow
// with their cube.
const maxNumbers = 8

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
		t.Expected = e
		t.words = s.words + ", where " + c.Quantity.Format(e.Low) + " to " + c.Quantity.Format(e.High) + " is expected"
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
	all := append(append([]string{}, edges...), own)
	text := strings.Join(all, "\n")
	numbers := constants(text, s.Jurisdiction)
	seen := map[string]bool{}
	var out []*trees.Expectation
	ways := placements(numbers, c.Quantity.Domain(), strings.Contains(text, "expected.nominal"))
	v.work += 10 * len(ways) * (len(edges) + 1)
	for _, e := range ways {
		t := s
		t.Expected = e
		order := v.order(c, t, constants(own, s.Jurisdiction), expectName.MatchString(own))
		if !seen[order] {
			seen[order] = true
			out = append(out, e)
		}
	}
	v.spreads[key] = out
	return out
}

// order says in which order the edges of the bands and other numbers come.
func (v *vetting) order(c *trees.BoundCheck, s situation, numbers []float64, expected bool) string {
	set, err := v.ready(c, s)
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
	var b strings.Builder
	for _, x := range numbers {
		i, _ := slices.BinarySearch(ranked, x)
		fmt.Fprintf(&b, "%d ", i)
	}
	return b.String()
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

// constants gives the numbers in a text, those of the mains where they are
// named, and where an expectation is reckoned with, what two of them make:
// "expected.low / 4" meets 300 where expected.low is 1200.
func constants(text string, j *trees.Jurisdiction) []float64 {
	var out []float64
	for _, t := range literal.FindAllString(text, -1) {
		if x, err := strconv.ParseFloat(t, 64); err == nil {
			out = append(out, x)
		}
	}
	for name, x := range map[string]float64{"mains.low": j.Low, "mains.nominal": j.Nominal, "mains.high": j.High} {
		if strings.Contains(text, name) {
			out = append(out, x)
		}
	}
	slices.Sort(out)
	out = slices.Compact(out)
	if arithmetic.MatchString(text) {
		for _, a := range slices.Clone(out) {
			for _, b := range slices.Clone(out[:min(len(out), maxNumbers)]) {
				out = append(out, a*b, a/b, a-b, a+b)
			}
		}
		slices.Sort(out)
		out = slices.Compact(out)
	}
	return out
}

// placements gives expectations for each way that low ≤ nominal ≤ high can lie
// on and between the numbers, those with a width first: they make the better
// examples.
func placements(numbers []float64, domain measurements.Interval, nominal bool) []*trees.Expectation {
	points := points(numbers, domain)
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

// points gives every number inside the domain and three places in each gap, so
// that three different values fit there.
func points(numbers []float64, domain measurements.Interval) []float64 {
	marks := []float64{domain.Lo}
	for _, x := range numbers {
		if x > domain.Lo && x < domain.Hi && len(marks) <= maxNumbers {
			marks = append(marks, x)
		}
	}
	last := marks[len(marks)-1]
	end := math.Min(domain.Hi, 4*math.Abs(last)+4)
	marks = append(marks, end)
	var out []float64
	for i, x := range marks[:len(marks)-1] {
		step := (marks[i+1] - x) / 4
		out = append(out, x, x+step, x+2*step, x+3*step)
	}
	return append(out, end)
}
