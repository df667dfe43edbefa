package terminal

import (
	"regexp"
	"strings"

	"github.com/mattn/go-runewidth"
)

// Print shows paragraphs, each wrapped to the width as Wrap does it. What could
// not be written is told by Err and by the next question.
func (f *Face) Print(paragraphs ...string) {
	for _, p := range paragraphs {
		f.write(strings.Join(Wrap(p, f.Width()), "\n") + "\n")
	}
}

func (f *Face) write(s string) {
	_, _ = f.out.Write([]byte(s)) // the sink keeps the error
}

// leader is what a wrapped line's continuation stands clear of: the indent and
// the mark of a list, "- ", "* ", "3) " or "3. ".
var leader = regexp.MustCompile(`^ *(?:(?:[-*•]|\d+[.)]) +)?`)

// Wrap breaks s into lines of at most width columns. Line breaks and leading
// spaces are kept; what is broken off a list item hangs under its text; a line
// that fits is left as it is, a drawing's spaces included. A word wider than
// the width is cut, behind a stroke or a hyphen of its own if it can be. Control
// characters do not pass.
func Wrap(s string, width int) []string {
	var out []string
	for line := range strings.SplitSeq(s, "\n") {
		out = append(out, wrapLine(strings.TrimRight(plain(line), " "), max(width, 1))...)
	}
	return out
}

func wrapLine(line string, width int) []string {
	if runewidth.StringWidth(line) <= width {
		return []string{line}
	}
	first := leader.FindString(line)
	if runewidth.StringWidth(first) > width/2 { // too narrow to hang anything
		spaces := len(line) - len(strings.TrimLeft(line, " "))
		first = strings.Repeat(" ", min(spaces, width/2))
		return fillLines(strings.Fields(line), first, first, width)
	}
	indent := strings.Repeat(" ", runewidth.StringWidth(first))
	return fillLines(strings.Fields(line[len(first):]), first, indent, width)
}

// fillLines sets words one after another; first begins the first line, indent
// the others. Both leave at least half the width.
func fillLines(words []string, first, indent string, width int) []string {
	var out []string
	line, fresh := first, true
	for _, word := range words {
		if !fresh && runewidth.StringWidth(line)+1+runewidth.StringWidth(word) > width {
			out, line, fresh = append(out, line), indent, true
		}
		for room := width - runewidth.StringWidth(line); fresh && runewidth.StringWidth(word) > room; {
			head := beginning(word, room)
			out, line = append(out, line+head), indent
			word = word[len(head):]
			room = width - runewidth.StringWidth(line)
		}
		if !fresh {
			line += " "
		}
		line, fresh = line+word, false
	}
	return append(out, line)
}

// beginning is the part of a word that fills the room: up to a stroke, a hyphen
// or a colon in it where there is one, so that names and paths keep their parts.
// It is never nothing, even where one wide character is wider than the room.
func beginning(word string, room int) string {
	if head := runewidth.Truncate(word, room, ""); head != "" {
		if at := strings.LastIndexAny(head, "/-:"); at > 0 && len(head) < len(word) {
			return head[:at+1]
		}
		return head
	}
	for i := range word {
		if i > 0 {
			return word[:i]
		}
	}
	return word
}
