package vet

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"faultwalk/trees"
)

var (
	literal    = regexp.MustCompile(`[0-9]+(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?`)
	expectName = regexp.MustCompile(`\bexpected\.(low|nominal|high)\b`)
	arithmetic = regexp.MustCompile(`expected\.[a-z]+\s*[-+*/]|[-+*/]\s*expected\.`)
)

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
