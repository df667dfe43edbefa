package command

import (
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"

	"github.com/mattn/go-runewidth"
	"github.com/spf13/cobra"

	"faultwalk/cmd/internal/terminal"
)

// helpColumns is how wide help is set where nobody says how wide.
const helpColumns = 80

// layHelp sets every command's help to the width there is: paragraphs filled
// anew, the words of flags and commands in their own column. Examples are broken
// on a terminal alone, so that what is piped can be run.
func layHelp(root *cobra.Command, w World) {
	root.SetHelpFunc(func(c *cobra.Command, _ []string) {
		columns, text := w.room(), c.Long
		if columns == 0 {
			columns = helpColumns
		}
		if text == "" {
			text = c.Short
		}
		lines := append(terminal.Wrap(filled(text), columns), "")
		for line := range strings.SplitSeq(strings.TrimRight(c.UsageString(), "\n"), "\n") {
			lines = append(lines, helpLine(line, columns, w.room() > 0)...)
		}
		_ = writeLines(c.OutOrStdout(), lines)
	})
}

// withWords matches a flag or a command with its words behind it.
var withWords = regexp.MustCompile(`^( +(?:-.*?|\S+) {2,})(\S.*)$`)

// helpLine breaks one line of usage: the words of a flag stand in their column,
// or under it where that leaves too little.
func helpLine(line string, columns int, shown bool) []string {
	if runewidth.StringWidth(line) <= columns {
		return []string{strings.TrimRight(line, " ")}
	}
	m := withWords.FindStringSubmatch(line)
	switch {
	case m == nil && shown:
		return hung([]string{line}, columns)
	case m == nil:
		return []string{line}
	case len(m[1]) <= columns/2:
		return indented(m[1], m[2], columns)
	}
	return append([]string{strings.TrimRight(m[1], " ")}, indented(strings.Repeat(" ", 4*hang), m[2], columns)...)
}

// noWords refuses words that are no flags.
func noWords(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return usage("%s takes flags alone and found %q; see %s --help", c.CommandPath(), args[0], c.CommandPath())
	}
	return nil
}

// notNumber matches what the flag library says of a number that is none.
var notNumber = regexp.MustCompile(`invalid argument ("[^"]*") for "(?:-\w, )?(--[a-z-]+)" flag: strconv\.Parse(?:Int|Uint|Float).*`)

// flagError says what is wrong with a flag, and where its help is.
func flagError(c *cobra.Command, err error) error {
	return usage("%s; see %s --help", notNumber.ReplaceAllString(err.Error(), "$2 $1: expected a number"), c.CommandPath())
}

// filled joins the lines of each paragraph; one with an indented line stays.
func filled(text string) string {
	paragraphs := strings.Split(strings.TrimSpace(text), "\n\n")
	for i, p := range paragraphs {
		if !strings.Contains("\n"+p, "\n ") {
			paragraphs[i] = strings.ReplaceAll(p, "\n", " ")
		}
	}
	return strings.Join(paragraphs, "\n\n")
}

// tell writes a message beside the output, on a terminal broken between words.
func tell(to io.Writer, text string) {
	if f, ok := to.(*os.File); ok && isTerminal(f) {
		text = strings.Join(hung(strings.Split(text, "\n"), width(f)), "\n")
	}
	fmt.Fprintln(to, text)
}
