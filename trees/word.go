package trees

import "faultwalk/trees/strict"

// Word is one word of the trade with what people say instead of it, and the
// words that contradict it when they are said of the same thing.
type Word struct {
	ID      strict.Text
	Also    []strict.Text
	Against []strict.Text
}

// word reads one word.
func (r *reader) word(s *section) {
	v := &Word{ID: s.Text("word"), Also: s.texts("also"), Against: s.texts("against")}
	if r.claim("word", v.ID) {
		r.set.Words = append(r.set.Words, v)
	}
}
