package strict

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Pos is a place in a file. Line and Col count from 1; Col counts characters (runes), a tab being one.
type Pos struct {
	File      string
	Line, Col int
}

// String gives file:line:col.
func (p Pos) String() string { return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col) }

// Problem says what is wrong at one place of a file, in one line.
type Problem struct {
	File      string
	Line, Col int
	Message   string
}

// String gives file:line:col: message.
func (p Problem) String() string {
	return fmt.Sprintf("%s:%d:%d: %s", p.File, p.Line, p.Col, p.Message)
}

// Error gives the same as String.
func (p Problem) Error() string { return p.String() }

// Pos returns where the problem is.
func (p Problem) Pos() Pos { return Pos{p.File, p.Line, p.Col} }

// Problems is everything that is wrong with one or several files. As an error it lists all of them.
type Problems []Problem

// shownByDefault keeps an error that reaches a terminal unasked within one screen.
const shownByDefault = 20

// Error lists the problems a line each, capped; use [Problems.Format] to choose the cap.
func (ps Problems) Error() string { return ps.Format(shownByDefault) }

// Format lists the problems a line each, sorted, without a final newline. After limit problems it says how many
// more there are; a limit of 0 or less lists all.
func (ps Problems) Format(limit int) string {
	sorted := ps.Sorted()
	lines := make([]string, 0, len(sorted))
	for i, p := range sorted {
		if limit > 0 && i == limit {
			lines = append(lines, fmt.Sprintf("… and %d more", len(sorted)-limit))
			break
		}
		lines = append(lines, p.String())
	}
	return strings.Join(lines, "\n")
}

// Sorted returns a copy ordered by file, line and column, problems of one place in the order they were found,
// exact repeats dropped.
func (ps Problems) Sorted() Problems {
	sorted := slices.Clone(ps)
	slices.SortStableFunc(sorted, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
	return slices.Compact(sorted)
}

// Err returns the sorted problems as an error, or nil when there are none.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	return ps.Sorted()
}
