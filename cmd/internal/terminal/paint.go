package terminal

import (
	"bytes"
	"io"
	"regexp"
	"strings"

	"github.com/mattn/go-runewidth"
)

// painter is what promptui writes to. promptui counts a painted row as one line
// of the terminal, so a row that wraps would leave a copy of itself at every
// key: each row is cut to the width the terminal has at that moment.
type painter struct {
	out    io.Writer
	width  func() int
	prompt string // what stands before the text being typed
}

// between matches what ends or begins a row: line ends, a step back, and the
// escape sequences that are no colour.
var between = regexp.MustCompile("[\r\n\b]|\x1b\\[[0-9;?]*[A-Za-ln-z]")

// colouring matches a colour, which takes no room.
var colouring = regexp.MustCompile("\x1b\\[[0-9;]*m")

// Write shows one paint. Bells are left out, and so is what has no escape
// sequence: readline showing the key in a line of its own, below the paint and
// for a moment.
func (p *painter) Write(paint []byte) (int, error) {
	if !bytes.ContainsRune(paint, '\x1b') {
		return len(paint), nil
	}
	var out strings.Builder
	rest, width := strings.ReplaceAll(string(paint), "\a", ""), p.width()
	for {
		at := between.FindStringIndex(rest)
		if at == nil {
			out.WriteString(p.row(rest, width))
			break
		}
		out.WriteString(p.row(rest[:at[0]], width))
		out.WriteString(rest[at[0]:at[1]])
		rest = rest[at[1]:]
	}
	if _, err := io.WriteString(p.out, out.String()); err != nil {
		return 0, err
	}
	return len(paint), nil
}

// Close does nothing: the terminal outlives the prompt.
func (p *painter) Close() error { return nil }

func (p *painter) row(row string, width int) string {
	left, right, typing := strings.Cut(row, string(caret))
	if typing {
		return typedRow(p.prompt, strings.TrimPrefix(left, p.prompt)+"_", right, width)
	}
	if runewidth.StringWidth(colouring.ReplaceAllString(row, "")) <= width {
		return row
	}
	return cutColoured(row, width)
}

// typedRow shows the part of a long text around the place where it is typed.
func typedRow(prompt, left, right string, width int) string {
	room := width - runewidth.StringWidth(prompt)
	if over := runewidth.StringWidth(left); over > room {
		left = runewidth.TruncateLeft(left, over-room+1, "…")
	}
	return prompt + left + runewidth.Truncate(right, max(0, room-runewidth.StringWidth(left)), "")
}

// cutColoured cuts the words of a row and keeps its colours, the last of which
// ends them.
func cutColoured(row string, width int) string {
	var out strings.Builder
	room := width - 1 // for the mark of what is missing
	for row != "" {
		at := colouring.FindStringIndex(row)
		if at == nil {
			at = []int{len(row), len(row)}
		}
		words := runewidth.Truncate(row[:at[0]], room, "")
		out.WriteString(words)
		room -= runewidth.StringWidth(words)
		if len(words) < at[0] {
			room = 0
		}
		out.WriteString(row[at[0]:at[1]])
		row = row[at[1]:]
	}
	return out.String() + "…"
}
