package strict

import (
	"strings"

	"gopkg.in/yaml.v3"
)

// place is a line and a column in the file, both from 1.
type place struct{ line, col int }

// places gives, for each character of the scalar's value and for its end, where it stands in the file. It reads the
// scalar's source a second time by YAML's rules and gives nil if the outcome is not the value.
func (n *Node) places() []place {
	if n.style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		return n.blockPlaces()
	}
	w := &writing{source: n.source, line: n.Pos.Line, wanted: []rune(n.value)}
	w.load(n.Pos.Col - 1)
	switch {
	case n.style&yaml.DoubleQuotedStyle != 0:
		w.at++
		w.read(w.doubleQuoted)
	case n.style&yaml.SingleQuotedStyle != 0:
		w.at++
		w.read(w.singleQuoted)
	default:
		w.read(w.plain)
	}
	if string(w.value) != n.value {
		return nil
	}
	return append(w.places, place{w.line, w.at + 1})
}

// writing reads a scalar that is not a block, keeping where each character of its value came from.
type writing struct {
	source *Source
	line   int
	text   []rune // of the line
	at     int    // next character in it
	end    int    // after its last character that is not blank
	wanted []rune // the value by the YAML library
	value  []rune
	places []place
}

func (w *writing) load(at int) bool {
	text, ok := w.source.line(w.line)
	w.text, w.at = []rune(text), at
	w.end = len([]rune(strings.TrimRight(text, " \t")))
	return ok
}

// read steps through the source, folding line ends, until the value is as long as it should be.
func (w *writing) read(step func()) {
	for len(w.value) < len(w.wanted) {
		switch {
		case w.at >= w.end:
			if !w.fold(" ") {
				return
			}
		default:
			step()
		}
	}
}

func (w *writing) put(r rune, at int) {
	w.value = append(w.value, r)
	w.places = append(w.places, place{w.line, at + 1})
}

// fold crosses a line end: blanks around it go, each empty line after it becomes a line feed, and if there is none
// the line end becomes what is given.
func (w *writing) fold(becomes string) bool {
	line, end := w.line, w.at
	for feeds := 0; ; feeds++ {
		if !w.nextLine() {
			return false
		}
		if w.at < len(w.text) {
			w.folded(becomes, feeds, place{line, end + 1})
			return true
		}
	}
}

// nextLine goes to the first character of the next line that is not blank.
func (w *writing) nextLine() bool {
	w.line++
	if !w.load(0) {
		return false
	}
	for w.at < len(w.text) && isBlank(w.text[w.at]) {
		w.at++
	}
	return true
}

func (w *writing) folded(becomes string, feeds int, from place) {
	if feeds > 0 {
		becomes = strings.Repeat("\n", feeds)
	}
	for _, r := range becomes {
		w.value = append(w.value, r)
		w.places = append(w.places, from)
	}
}

func (w *writing) plain() {
	w.put(w.text[w.at], w.at)
	w.at++
}

func (w *writing) singleQuoted() {
	if w.text[w.at] == '\'' { // stands twice for itself
		w.put('\'', w.at)
		w.at += 2
		return
	}
	w.plain()
}

// escapes are YAML 1.2.2 section 5.7; x, u and U carry 2, 4 and 8 hexadecimal digits.
var escapes = map[rune]rune{
	'0': 0, 'a': 7, 'b': 8, 't': 9, '\t': 9, 'n': 10, 'v': 11, 'f': 12, 'r': 13, 'e': 27, ' ': ' ', '"': '"', '/': '/',
	'\'': '\'', '\\': '\\', 'N': 0x85, '_': 0xA0, 'L': 0x2028, 'P': 0x2029,
}

func (w *writing) doubleQuoted() {
	start := w.at
	switch {
	case w.text[start] != '\\':
		w.plain()
	case start+1 == len(w.text): // an escaped line end leaves nothing behind
		if !w.fold("") {
			w.wanted = nil
		}
	default:
		r, length := escaped(w.text[start+1:])
		w.put(r, start)
		w.at = start + 1 + length
	}
}

// escaped reads what follows a backslash and gives how many characters that was.
func escaped(text []rune) (rune, int) {
	if digits := map[rune]int{'x': 2, 'u': 4, 'U': 8}[text[0]]; digits > 0 && digits < len(text) {
		return hexadecimal(text[1 : 1+digits]), 1 + digits
	}
	return escapes[text[0]], 1
}

func hexadecimal(digits []rune) (r rune) {
	for _, d := range digits {
		r = r<<4 | rune(strings.IndexRune("0123456789abcdef", d|0x20))&15
	}
	return r
}

func isBlank(r rune) bool { return r == ' ' || r == '\t' }
