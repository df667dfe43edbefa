package strict

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Source is one file that was read: its tree and everything found wrong with it so far. Every [Node], [Map] and
// [Text] of the file records into it, so a caller may decode the whole file before asking for [Source.Problems].
// It is not safe for several goroutines at once.
type Source struct {
	File string
	Root *Node // nil when nothing could be read

	text     string
	starts   []int // byte offset of each line
	cursor   cursor
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
	s := &Source{File: file, text: text, limit: limit, starts: make([]int, 1, strings.Count(text, "\n")+1)}
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
	s.seek(line, col)
	return s.pos(line, min(col, s.cursor.col))
}

// cursor is a character of the file and where its bytes begin. It only saves counting: a line may be the whole file.
type cursor struct{ line, col, at int }

// seek moves the cursor to a character, or to the end of the line if that comes first.
func (s *Source) seek(line, col int) {
	if s.cursor.line != line || s.cursor.col > col {
		s.cursor = cursor{line, 1, s.starts[line-1]}
	}
	for s.cursor.col < col && s.cursor.at < len(s.text) && !lineEnds(s.text[s.cursor.at:]) {
		_, size := utf8.DecodeRuneInString(s.text[s.cursor.at:])
		s.cursor.at, s.cursor.col = s.cursor.at+size, s.cursor.col+1
	}
}

func lineEnds(rest string) bool { return rest[0] == '\n' || rest[0] == '\r' }

// startsWith says whether that character stands at a place.
func (s *Source) startsWith(pos Pos, mark byte) bool {
	s.seek(pos.Line, pos.Col)
	return s.cursor.col == pos.Col && s.cursor.at < len(s.text) && s.text[s.cursor.at] == mark
}
