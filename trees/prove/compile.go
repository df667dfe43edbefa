package prove

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
)

// Condition is a condition that was read and found to use only what conditions may use.
type Condition struct {
	Source string

	formula *formula
	err     Errors
}

// Compile reads a condition by the names it may use. The error, if any, is of type [Errors] and has every wrong
// name and forbidden form with its place.
func (p *Prover) Compile(source string, vocabulary Vocabulary) (*Condition, error) {
	return p.compile(source, vocabulary, vocabulary.key())
}

func (p *Prover) compile(source string, vocabulary Vocabulary, key string) (*Condition, error) {
	key += source
	c, ok := p.conditions[key]
	if !ok {
		c = read(source, vocabulary, p.config)
		p.conditions[key] = c
	}
	if c.err != nil {
		return nil, c.err
	}
	return c, nil
}

// Undecided tells why the proof will not be able to decide this condition, as far as its form alone shows.
func (c *Condition) Undecided() []Undecided {
	var all []Undecided
	c.formula.each(func(f *formula) {
		if f.reason != "" {
			all = append(all, c.undecided(f.reasonAt, f.reason))
		}
	})
	return all
}

func (c *Condition) undecided(at int, reason string) Undecided {
	line, column := lineColumn(c.Source, at)
	return Undecided{Line: line, Column: column, Reason: reason}
}

func read(source string, vocabulary Vocabulary, config *conf.Config) *Condition {
	if err := checkSource(source); err != nil {
		return &Condition{Source: source, err: Errors{*err}}
	}
	tree, err := parser.ParseWithConfig(source, config)
	if err != nil {
		return &Condition{Source: source, err: Errors{parseError(err)}}
	}
	g := &grammar{source: source, vocabulary: vocabulary}
	f := g.formula(tree.Node)
	return &Condition{Source: source, formula: f, err: g.errors}
}

// checkSource refuses what must not reach the parser: it follows brackets by recursion and does not count them.
func checkSource(source string) *Error {
	switch {
	case len(source) > maxSource:
		return &Error{Line: 1, Message: fmt.Sprintf("the condition has %d bytes; expected at most %d", len(source), maxSource)}
	case !utf8.ValidString(source) || strings.ContainsRune(source, 0):
		return &Error{Line: 1, Message: "the condition is not text in UTF-8"}
	case strings.TrimSpace(source) == "":
		return &Error{Line: 1, Message: "the condition is empty; write one, or true"}
	}
	depth := 0
	for offset, r := range []rune(source) {
		switch r {
		case '(', '[', '{':
			depth++
		case ')', ']', '}':
			depth--
		}
		if depth > maxNesting {
			line, column := lineColumn(source, offset)
			return &Error{Line: line, Column: column, Message: fmt.Sprintf("brackets are nested too deeply; expected at most %d levels", maxNesting)}
		}
	}
	return nil
}

func parseError(err error) Error {
	var at *file.Error
	if errors.As(err, &at) {
		return Error{Line: max(at.Line, 1), Column: at.Column, Message: "the condition cannot be read: " + firstLine(at.Message)}
	}
	return Error{Line: 1, Message: "the condition cannot be read: " + firstLine(err.Error())}
}

// firstLine leaves out the snippet the library draws, and the words of the Go library below it.
func firstLine(s string) string {
	line, _, _ := strings.Cut(s, "\n")
	line, _, _ = strings.Cut(line, ": strconv.")
	return line
}
