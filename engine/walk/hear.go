package walk

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"faultwalk/trees"
	"faultwalk/trees/spelling"
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

// token is a word as it is compared, and as it was typed.
type token struct{ word, typed string }

// phrase is what a symptom says of itself.
type phrase struct {
	text   string
	tokens []token
}

// ear knows what the words of every symptom are, and how rare each is.
type ear struct {
	means    map[string]string // phrase → word
	longest  int               // words of a phrase
	against  map[string][]string
	symptoms []string
	phrases  map[string][]phrase
	rarity   map[string]float64
	known    []string
}

func newEar(set *trees.Set) *ear {
	e := &ear{means: map[string]string{}, against: map[string][]string{}, phrases: map[string][]phrase{}, rarity: map[string]float64{}}
	for _, w := range set.Words {
		e.mean(w.ID.Value, w.ID.Value)
		for _, a := range w.Also {
			e.mean(a.Value, w.ID.Value)
		}
		for _, a := range w.Against {
			e.against[w.ID.Value] = append(e.against[w.ID.Value], a.Value)
			e.against[a.Value] = append(e.against[a.Value], w.ID.Value)
		}
	}
	in := map[string]int{}
	for id, s := range set.Symptoms {
		e.symptoms = append(e.symptoms, id)
		here := map[string]bool{}
		for _, text := range append([]string{s.Sign}, s.Words...) {
			p := phrase{text, e.parse(text, false)}
			e.phrases[id] = append(e.phrases[id], p)
			for _, t := range p.tokens {
				here[t.word] = true
			}
		}
		for w := range here {
			in[w]++
		}
	}
	slices.Sort(e.symptoms)
	for w, n := range in {
		e.rarity[w] = math.Log(1 + float64(len(e.symptoms))/float64(n))
		e.known = append(e.known, w)
	}
	return e
}

func (e *ear) mean(phrase, word string) {
	parts := split(phrase)
	e.means[strings.Join(parts, " ")] = word
	e.longest = max(e.longest, len(parts))
}

// split cuts a text into lower-case words.
func split(text string) []string {
	return strings.FieldsFunc(strings.ToLower(strings.ReplaceAll(text, "’", "'")), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\''
	})
}

// idle are words that say nothing about a plant.
var idle = strings.Fields("a an and are as at be been but by can comes do does for from get gets getting goes got had has have he her here his how i i'm i've if in into is it it's its just " +
	"keeps like me my of on one or our says seems she since so some that the their them then there they this to up us very was we were what when which while with you your all any again still now only")

// parse reads a text as words of the trade, the longest phrases first. Slips of
// the keyboard are mended where that is wanted.
func (e *ear) parse(text string, mend bool) (out []token) {
	words := split(text)
	for i := 0; i < len(words); {
		word, n := e.longestOf(words[i:])
		typed := strings.Join(words[i:i+n], " ")
		i += n
		if n == 1 && slices.Contains(idle, typed) && e.means[typed] == "" {
			continue
		}
		if mend && e.rarity[word] == 0 {
			word = e.mend(word)
		}
		out = append(out, token{word, typed})
	}
	return out
}

// longestOf finds the longest phrase with a meaning that words begin with, or takes
// the first word without its plural.
func (e *ear) longestOf(words []string) (word string, n int) {
	for n := min(e.longest, len(words)); n > 0; n-- {
		if w := e.means[strings.Join(words[:n], " ")]; w != "" {
			return w, n
		}
	}
	return stem(words[0]), 1
}

// mend gives the nearest word that is known, for a slip.
func (e *ear) mend(word string) string {
	if len(word) < 4 {
		return word
	}
	if near, ok := spelling.Nearest(word, e.known); ok {
		return near
	}
	var phrases []string
	for p := range e.means {
		phrases = append(phrases, p)
	}
	if near, ok := spelling.Nearest(word, phrases); ok {
		return e.means[near]
	}
	return word
}

// stem takes plural and verb endings off, so that "clicks" and "clicking" are one word.
func stem(w string) string {
	for _, end := range []string{"ing", "es", "ed", "s"} {
		if rest, cut := strings.CutSuffix(w, end); cut && len(rest) >= 3 && !strings.HasSuffix(rest, "s") {
			return rest
		}
	}
	return w
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
