package vet

import (
	"strings"
	"unicode"

	"faultwalk/trees"
)

// phrases are the names of a plant's points as they would be met in a text:
// words in small letters, markings as they stand.
type phrases struct {
	points  map[string]string // phrase → point
	longest int               // words
}

// mention is a point named in a text.
type mention struct{ point, text string }

// phrases gives the names of the points of a plant, gathered once.
func (v *vetting) phrases(p *trees.Plant) phrases {
	if known, ok := v.spoken[p.ID]; ok {
		return known
	}
	f := phrases{points: map[string]string{}}
	for _, pt := range p.Points {
		if marking(pt.Marking) {
			f.add(pt.Marking, pt.ID)
		}
		if words := strings.ToLower(pt.Words); strings.Contains(words, " ") {
			f.add(words, pt.ID)
		}
	}
	v.spoken[p.ID] = f
	return f
}

func (f *phrases) add(name, point string) {
	words := wordsOf(name)
	f.longest = max(f.longest, min(len(words), maxPhrase))
	if key := strings.Join(words, " "); f.points[key] == "" {
		f.points[key] = point
	}
}

// maxPhrase bounds the words of a name that is looked for.
const maxPhrase = 12

// in finds the points that a text names, each phrase once.
func (f phrases) in(text string) []mention {
	words, small := wordsOf(text), wordsOf(strings.ToLower(text))
	var out []mention
	seen := map[string]bool{}
	for i := range words {
		for n := 1; n <= f.longest && i+n <= len(words) && i+n <= len(small); n++ {
			for _, key := range []string{strings.Join(words[i:i+n], " "), strings.Join(small[i:i+n], " ")} {
				if point := f.points[key]; point != "" && !seen[key] {
					seen[key] = true
					out = append(out, mention{point, key})
				}
			}
		}
	}
	return out
}

func wordsOf(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// marking says whether a marking is no everyday word: two characters or more,
// with a letter, and a digit or a capital.
func marking(m string) bool {
	odd := func(r rune) bool { return unicode.IsUpper(r) || unicode.IsDigit(r) }
	return len(m) > 1 && strings.ContainsFunc(m, unicode.IsLetter) && strings.ContainsFunc(m, odd)
}
