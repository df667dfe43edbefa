package sheet

import (
	"strings"
	"unicode"
)

// narrowest is the least width text is set in: below it wrapping only harms.
const narrowest = 20

// page sets text in lines of at most so many columns.
type page struct {
	b     strings.Builder
	width int
}

// line writes words behind a lead, continued under the words.
func (p *page) line(lead, words string) {
	under := strings.Repeat(" ", columns(lead))
	for para := range strings.SplitSeq(clean(words), "\n") {
		for _, l := range fill(para, p.width-columns(lead)) {
			p.b.WriteString(strings.TrimRight(lead+l, " ") + "\n")
			lead = under
		}
	}
}

// heading begins a section.
func (p *page) heading(words string) {
	p.b.WriteString("\n")
	p.line("", words)
	p.b.WriteString(strings.Repeat("-", min(columns(words), p.width)) + "\n")
}

// labelled writes "Label: words", continued with a small indent; nothing where
// there are no words.
func (p *page) labelled(label string, words ...string) {
	if w := joined("; ", words...); w != "" {
		p.hang("", label+": "+w)
	}
}

// hang writes a line whose continuation stands in by two columns; nothing
// where there are no words.
func (p *page) hang(indent, words string) {
	if words == "" {
		return
	}
	lines := fill(clean(words), p.width-columns(indent)-2)
	for i, l := range lines {
		in := indent
		if i > 0 {
			in += "  "
		}
		p.b.WriteString(in + l + "\n")
	}
}

// fill breaks words into lines of at most width columns; a word that is wider
// is cut.
func fill(words string, width int) []string {
	width = max(width, narrowest/2)
	var out []string
	line := ""
	for _, w := range strings.Fields(words) {
		for line == "" && columns(w) > width {
			n := fitting(w, width)
			out, w = append(out, w[:n]), w[n:]
		}
		switch {
		case line == "":
			line = w
		case columns(line)+1+columns(w) <= width:
			line += " " + w
		default:
			out, line = append(out, line), ""
			for columns(w) > width {
				n := fitting(w, width)
				out, w = append(out, w[:n]), w[n:]
			}
			line = w
		}
	}
	return append(out, line)
}

// fitting is how many bytes of a word fill the width; never none.
func fitting(w string, width int) int {
	used := 0
	for i, r := range w {
		used += runeColumns(r)
		if used > width && i > 0 {
			return i
		}
	}
	return len(w)
}

func columns(s string) int {
	n := 0
	for _, r := range s {
		n += runeColumns(r)
	}
	return n
}

// runeColumns is how wide a terminal shows a character, without asking the
// environment: the sheet is the same everywhere.
func runeColumns(r rune) int {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case unicode.In(r, unicode.Han, unicode.Hangul, unicode.Hiragana, unicode.Katakana), r >= 0x1F300 && r <= 0x1FAFF, r >= 0xFF01 && r <= 0xFF60:
		return 2
	}
	return 1
}
