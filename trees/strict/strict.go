// Package strict reads YAML that people write by hand and hostile people send: every problem of a file is reported
// at once, each with its line and column, and nothing that YAML would silently turn into something else is let
// through. It knows nothing of what the files mean.
//
// Use [Parse] first, then [Node.Map] on the root and the readers of [Map]; [Source.Problems] has the verdict.
//
// Refused, although YAML allows it: anchors, aliases, merge keys, tags, a second document, an empty document, empty
// values, keys that are no text, keys that come twice, .inf and .nan, and numbers not written as plain decimals.
package strict

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// Limits bounds what one file may cost. A field of 0 takes the value of [DefaultLimits].
type Limits struct {
	Size     int // bytes
	Depth    int // mappings and lists inside one another
	Nodes    int // keys and values
	Problems int // recorded; the rest is dropped
}

// DefaultLimits fits a file of 10,000 steps and little more.
func DefaultLimits() Limits {
	return Limits{Size: 4 << 20, Depth: 32, Nodes: 500_000, Problems: 1000}
}

func (l Limits) filled() Limits {
	d := DefaultLimits()
	for _, f := range []struct {
		have *int
		want int
	}{{&l.Size, d.Size}, {&l.Depth, d.Depth}, {&l.Nodes, d.Nodes}, {&l.Problems, d.Problems}} {
		if *f.have <= 0 {
			*f.have = f.want
		}
	}
	return l
}

// Parse reads one file. The name is only for messages. It always returns a source; what was wrong is among its
// problems, and a broken part is left out of the tree in a way that readers do not complain about it again.
func Parse(file string, src []byte, limits Limits) *Source {
	limits = limits.filled()
	if len(src) > limits.Size {
		s := newSource(file, "", limits.Problems)
		s.Problem(s.pos(1, 1), "the file has %d bytes; expected at most %d", len(src), limits.Size)
		return s
	}
	s := newSource(file, string(bytes.TrimPrefix(src, []byte("\uFEFF"))), limits.Problems)
	if !s.checkBytes() || !s.checkAmount(limits.Nodes) {
		return s
	}
	if root := s.decode(); root != nil {
		c := converter{source: s, limits: limits}
		s.Root = c.node(root, 1)
	}
	return s
}

// checkBytes refuses bytes that are no text, and line endings that editors and YAML count differently.
func (s *Source) checkBytes() bool {
	line, col := 1, 1
	for i := 0; i < len(s.text); {
		r, size := utf8.DecodeRuneInString(s.text[i:])
		if bad := badRune(r, size, s.text[i:]); bad != "" {
			s.Problem(s.pos(line, col), "found %s; expected text in UTF-8", bad)
			return false
		}
		i, col = i+size, col+1
		if r == '\n' {
			line, col = line+1, 1
		}
	}
	return true
}

func badRune(r rune, size int, rest string) string {
	switch {
	case r == utf8.RuneError && size <= 1:
		return "a byte that is not UTF-8"
	case r == '\n' || r == '\t' || r == '\r' && strings.HasPrefix(rest, "\r\n"):
		return ""
	case r == '\r':
		return "a carriage return without a line feed"
	case r < ' ' || r == 0x7F || r >= 0x80 && r < 0xA0:
		return "a control character"
	case r == '\u2028' || r == '\u2029':
		return "a Unicode line separator"
	case r == '\uFEFF':
		return "a byte order mark inside the file"
	case r == '\uFFFE' || r == '\uFFFF':
		return "a character that means nothing"
	}
	return ""
}

// checkAmount bounds the number of values before the YAML library builds them: no value comes without one of
// these marks, so their number is never below the number of values.
func (s *Source) checkAmount(most int) bool {
	marks := 1
	for _, mark := range []string{",", "\n", "- ", ": ", "[", "{", "? "} {
		marks += strings.Count(s.text, mark)
	}
	if marks > 2*most {
		s.Problem(s.pos(1, 1), "the file holds too many values; expected at most %d", most)
		return false
	}
	return true
}
