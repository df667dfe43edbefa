package vet

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"faultwalk/trees"
)

// maxNumbers bounds the numbers an expectation is placed among: the ways grow
// with their square. Where the nominal value counts it is half, for the cube.
const maxNumbers = 16

// placeWork is what placing one expectation takes, in runs of a condition.
const placeWork = 40

// spread gives the situation for every expectation that could be met. Where
// the expectation depends on no earlier reading there is the one.
func (v *vetting) spread(c *trees.BoundCheck, s situation, conditions []string) []situation {
	if len(c.Uses) == 0 || s.Expected == nil {
		return []situation{s}
	}
	edges := v.edgeTexts(c.Check.Scale, s.Modes)
	own := strings.Join(conditions, "\n")
	if !literal.MatchString(own) && !expectName.MatchString(own) && !strings.Contains(own, "mains.") {
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
	for _, as := range slices.Sorted(maps.Keys(modes)) {
		for _, b := range sc.ForMode(modes[as]) {
			if !b.Last && !slices.Contains(out, b.To.Value) {
				out = append(out, b.To.Value)
			}
		}
	}
	return out
}
