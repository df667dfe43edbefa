package walk

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"faultwalk/trees"
	"faultwalk/trees/spelling"
)

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
