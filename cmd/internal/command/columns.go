package command

import (
	"strings"

	"github.com/mattn/go-runewidth"

	"faultwalk/cmd/internal/terminal"
)

// narrow is the columns below which there is no room for tables.
const narrow = 80

// hang is how far what is broken off a line stands in, in columns.
const hang = 2

// room is how many columns lines are broken to: a terminal's own, else what
// COLUMNS says. 0 is a pipe or a file, where each thing keeps to one line for
// whatever reads it.
func (w World) room() int {
	if !isTerminal(w.Out) && w.Env("COLUMNS") == "" {
		return 0
	}
	return w.columns()
}

// isNarrow says whether the output has no room for tables.
func (w World) isNarrow() bool { return w.room() > 0 && w.room() < narrow }

// print writes lines to the output, each broken between words where it is too
// long; what is broken off hangs under its line.
func (w World) print(lines []string) error { return writeLines(w.Out, hung(lines, w.room())) }

// hung breaks lines to so many columns, 0 for none; what is broken off stands
// two columns further in.
func hung(lines []string, columns int) []string {
	if columns == 0 {
		return lines
	}
	var out []string
	for _, line := range lines {
		if runewidth.StringWidth(line) <= columns {
			out = append(out, line)
			continue
		}
		text := strings.TrimLeft(line, " ")
		in := min(len(line)-len(text), columns/4)
		for i, part := range terminal.Wrap(text, columns-in-hang) {
			lead := in
			if i > 0 {
				lead += hang
			}
			out = append(out, strings.TrimRight(strings.Repeat(" ", lead)+part, " "))
		}
	}
	return out
}
