package formula

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"faultwalk/trees/strict"
)

// Error says what is wrong with a formula, and where: At counts characters
// from 0, within the formula.
type Error struct {
	At      int
	Message string
}

// Errors is everything that is wrong with a formula.
type Errors []Error

// Error lists the errors a line each, with the character, counted from 1.
func (es Errors) Error() string {
	lines := make([]string, len(es))
	for i, e := range es {
		lines[i] = fmt.Sprintf("%d: %s", e.At+1, e.Message)
	}
	return strings.Join(lines, "\n")
}

// In places the errors in the file whose text the formula is. What names the
// formula in the messages: "a rule".
func (es Errors) In(t strict.Text, what string) strict.Problems {
	var all strict.Problems
	for _, e := range es {
		pos := t.AtOffset(e.At)
		all = append(all, strict.Problem{File: pos.File, Line: pos.Line, Col: pos.Col, Message: fmt.Sprintf("in %s: %s", what, e.Message)})
	}
	return all
}

// checkSource refuses what must not reach the parser.
func checkSource(source string) *Error {
	switch {
	case len(source) > maxSource:
		return &Error{0, fmt.Sprintf("it has %d bytes; expected at most %d", len(source), maxSource)}
	case !utf8.ValidString(source) || strings.ContainsRune(source, 0):
		return &Error{0, "it is not text in UTF-8"}
	case strings.TrimSpace(source) == "":
		return &Error{0, "it is empty; write a formula, or true"}
	}
	depth := 0
	for at, r := range []rune(source) {
		switch r {
		case '(', '[', '{':
			depth++
		case ')', ']', '}':
			depth--
		}
		if depth > maxNesting {
			return &Error{at, fmt.Sprintf("brackets are nested too deeply; expected at most %d levels", maxNesting)}
		}
	}
	return nil
}
