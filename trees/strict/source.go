package strict

import (
	"fmt"
	"strings"
)

// Source is one file that was read: its tree and everything found wrong with it so far. Every [Node], [Map] and
// [Text] of the file records into it, so a caller may decode the whole file before asking for [Source.Problems].
// It is not safe for several goroutines at once.
type Source struct {
	File string
	Root *Node // nil when nothing could be read

	text     string
	starts   []int // byte offset of each line
	limit    int
	problems Problems
}

// Problems returns what was found wrong so far, sorted.
func (s *Source) Problems() Problems { return s.problems.Sorted() }

// Err returns the problems found so far as an error, or nil.
func (s *Source) Err() error { return s.problems.Err() }

// Problem records what is wrong at pos, which may be in another file. Once the limit is reached one last entry
// says so and the rest is dropped: a hostile file must not fill the memory with complaints.
func (s *Source) Problem(pos Pos, format string, args ...any) {
	switch {
	case len(s.problems) > s.limit:
		return
	case len(s.problems) == s.limit:
		format, args = "more than %d problems; the rest is not listed", []any{s.limit}
	}
	s.problems = append(s.problems, Problem{pos.File, pos.Line, pos.Col, oneLine(fmt.Sprintf(format, args...))})
}

// oneLine keeps a message on its line whatever a hostile file put into a name.
func oneLine(message string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' {
			return ' '
		}
		return r
	}, message)
}

func newSource(file, text string, limit int) *Source {
	s := &Source{File: file, text: text, limit: limit, starts: []int{0}}
	for i := 0; i < len(text); i++ {
		if text[i] == '\n' {
			s.starts = append(s.starts, i+1)
		}
	}
	return s
}

func (s *Source) pos(line, col int) Pos { return Pos{s.File, max(line, 1), max(col, 1)} }

// line returns a line, counted from 1, without its ending.
func (s *Source) line(n int) (string, bool) {
	if n < 1 || n > len(s.starts) {
		return "", false
	}
	end := len(s.text)
	if n < len(s.starts) {
		end = s.starts[n]
	}
	return strings.TrimRight(s.text[s.starts[n-1]:end], "\r\n"), true
}

// clamp moves a place into the file: the YAML library puts an empty value at the end one line beyond it.
func (s *Source) clamp(line, col int) Pos {
	line = min(max(line, 1), len(s.starts))
	text, _ := s.line(line)
	return s.pos(line, min(col, len([]rune(text))+1))
}
