// Package spelling finds the known word a person probably meant, so that an error about a wrong name can say so.
// Use [Nearest] for one suggestion and [Quoted] to list what would have been right.
package spelling

import (
	"slices"
	"strconv"
	"strings"
)

// longest is the length, in bytes, beyond which a word is not compared: the comparison costs the product of both lengths.
const longest = 64

// Nearest returns the known word closest to word by edit distance, if it is close enough to be a slip of the
// keyboard: none for one letter, one edit up to four letters, two up to eight, three beyond. Ties go to the alphabetically first.
func Nearest(word string, known []string) (string, bool) {
	if word == "" || len(word) > longest {
		return "", false
	}
	best, distance := "", allowed(word)+1
	for _, k := range known {
		if k == word || len(k) > longest || abs(len(k)-len(word)) >= distance+1 {
			continue
		}
		if d := edits(strings.ToLower(word), strings.ToLower(k)); d < distance || d == distance && best != "" && k < best {
			best, distance = k, d
		}
	}
	return best, best != ""
}

// DidYouMean returns `; did you mean "x"?` for the nearest known word, or nothing.
func DidYouMean(word string, known []string) string {
	if near, ok := Nearest(word, known); ok {
		return "; did you mean " + strconv.Quote(near) + "?"
	}
	return ""
}

// Quoted lists words in alphabetical order, each in quotes, with commas between and no word twice.
func Quoted(words []string) string {
	sorted := slices.Compact(slices.Sorted(slices.Values(words)))
	for i, w := range sorted {
		sorted[i] = strconv.Quote(w)
	}
	return strings.Join(sorted, ", ")
}

func allowed(word string) int {
	switch {
	case len(word) == 1:
		return 0
	case len(word) <= 4:
		return 1
	case len(word) <= 8:
		return 2
	}
	return 3
}

func abs(n int) int { return max(n, -n) }

// edits counts insertions, deletions, replacements and swaps of neighbours (optimal string alignment).
func edits(a, b string) int {
	before, last := []int(nil), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row := make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}
