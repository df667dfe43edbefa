package walk

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"faultwalk/trees"
)

// Heard is a symptom that a caller's words may mean.
type Heard struct {
	Symptom string
	Score   float64 // from 0: nothing in common, to 1: the very words of the tree
	Because string  // which words speak for it
}

// heardAt is the score below which words say nothing.
const heardAt = 0.12

// Hear ranks the symptoms of a set by what a caller said in free words, the
// likeliest first; those that have nothing in common with it are left out. Words
// that mean the same count as the same, a slip of the keyboard as the nearest
// word, rare words more than common ones, and a thing said to be the contrary of
// what a symptom says of it ("tank hot" of "tank cold") against that symptom.
func Hear(set *trees.Set, said string) []Heard {
	e := newEar(set)
	heard := e.parse(said, true)
	var out []Heard
	for _, id := range e.symptoms {
		if h := e.rank(id, heard); h.Score >= heardAt {
			out = append(out, h)
		}
	}
	slices.SortFunc(out, func(a, b Heard) int {
		return cmp.Or(cmp.Compare(b.Score, a.Score), cmp.Compare(a.Symptom, b.Symptom))
	})
	return out
}

// rank scores one symptom by the phrase of it that fits best, and a little by the next.
func (e *ear) rank(id string, heard []token) Heard {
	best, second, like := 0.0, 0.0, 0
	for i, p := range e.phrases[id] {
		switch s := e.alike(heard, p.tokens); {
		case s > best:
			best, second, like = s, best, i
		case s > second:
			second = s
		}
	}
	h := Heard{Symptom: id, Score: min(1, 0.85*best+0.15*second)}
	if best > 0 {
		h.Because = e.because(heard, e.phrases[id][like])
	}
	return h
}

// alike compares what was heard with a phrase: 0 to 1, by the weight of the
// words both have (the cosine of their weights), pairs of neighbours included.
func (e *ear) alike(heard, phrase []token) float64 {
	a, b := e.weights(heard), e.weights(phrase)
	dot, la, lb := 0.0, 0.0, 0.0
	for w, x := range a {
		dot += x * b[w]
		la += x * x
	}
	for _, y := range b {
		lb += y * y
	}
	if la == 0 || lb == 0 {
		return 0
	}
	return max(0, dot/math.Sqrt(la*lb)-e.contrary(a, b))
}

// weights are those of the words, and of every two beside each other.
func (e *ear) weights(ts []token) map[string]float64 {
	out := map[string]float64{}
	for i, t := range ts {
		out[t.word] = e.rarityOf(t.word)
		if i > 0 && ts[i-1].word != t.word {
			out[pair(ts[i-1].word, t.word)] = (e.rarityOf(ts[i-1].word) + e.rarityOf(t.word)) / 2
		}
	}
	return out
}

func pair(a, b string) string { return min(a, b) + "\n" + max(a, b) }

// rarityOf a word that no symptom has is low: a caller tells much beside the matter.
func (e *ear) rarityOf(word string) float64 {
	if r, ok := e.rarity[word]; ok {
		return r
	}
	return 0.5
}

// contrary is what it costs that both speak of one thing and say the opposite.
func (e *ear) contrary(heard, phrase map[string]float64) float64 {
	cost := 0.0
	for p := range heard {
		one, other, isPair := strings.Cut(p, "\n")
		if !isPair {
			continue
		}
		for _, w := range [][2]string{{one, other}, {other, one}} {
			for _, against := range e.against[w[1]] {
				if phrase[pair(w[0], against)] > 0 {
					cost += 0.3
				}
			}
		}
	}
	return cost
}

// because names what was typed that the phrase has too.
func (e *ear) because(heard []token, like phrase) string {
	var same []string
	for _, t := range heard {
		if slices.ContainsFunc(like.tokens, func(p token) bool { return p.word == t.word }) {
			same = append(same, "“"+t.typed+"”")
		}
	}
	return fmt.Sprintf("you said %s, as in “%s”", strings.Join(same, ", "), like.text)
}
