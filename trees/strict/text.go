package strict

import "unicode/utf8"

// Text is a text of a file and its place there. The zero Text stands for one that is missing or was refused.
type Text struct {
	Value string
	Pos   Pos // of its first character, or of the quote or the | or > it begins with
	node  *Node
}

// String gives the text.
func (t Text) String() string { return t.Value }

// Problem records what is wrong with this text, at its start.
func (t Text) Problem(format string, args ...any) { t.node.Problem(format, args...) }

// ProblemAt records what is wrong inside this text, at a place that came from [Text.At] or [Text.AtOffset].
func (t Text) ProblemAt(pos Pos, format string, args ...any) {
	if t.node != nil {
		t.node.source.Problem(pos, format, args...)
	}
}

// At gives the place in the file of a line (from 1) and column (from 0, in characters) inside the text, as
// positions in expressions are counted.
func (t Text) At(line, col int) Pos {
	offset := 0
	for _, r := range t.Value {
		if line <= 1 {
			break
		}
		if r == '\n' {
			line--
		}
		offset++
	}
	return t.AtOffset(offset + max(col, 0))
}

// AtOffset gives the place in the file of a character of the text, counted from 0. It is exact for all ways to
// write a text; an offset at or beyond the end gives the place after the last character. In a text whose value was
// replaced it is the place where the text begins.
func (t Text) AtOffset(offset int) Pos {
	if t.node == nil || t.Value != t.node.value {
		return t.Pos
	}
	places := t.node.places()
	if places == nil {
		return t.Pos
	}
	if length := utf8.RuneCountInString(t.Value); offset >= length {
		offset = length
	}
	p := places[max(offset, 0)]
	return t.node.source.clamp(p.line, p.col)
}
