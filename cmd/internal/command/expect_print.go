package command

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"faultwalk/cmd/internal/terminal"
	"faultwalk/measurements"
	"faultwalk/measurements/expected"
)

// labelWidth is the column the values of one expectation stand in.
const labelWidth = 10

// printExpected writes one expected value to the command's output.
func printExpected(cmd *cobra.Command, e expected.Expected) error {
	out := cmd.OutOrStdout()
	if asJSON(cmd) {
		return writeJSON(out, e)
	}
	var lines []string
	for _, l := range []struct {
		label string
		value *float64
	}{{"low", e.Low}, {"nominal", e.Nominal}, {"high", e.High}, {"80 %", e.EightyPercent}} {
		if l.value != nil {
			lines = append(lines, labelled(l.label, written(*l.value, e.Unit), width(out))...)
		}
	}
	lines = append(lines, labelled("source", e.Source, width(out))...)
	if e.Note != "" {
		lines = append(lines, labelled("note", e.Note, width(out))...)
	}
	return writeLines(out, lines)
}

// tableRow is one line of a table: its name as people read it, and the row itself,
// which is what JSON shows.
type tableRow struct {
	name string
	expected.Expected
	row any
}

// printTable writes rows as text, or their structures as a JSON list.
func printTable(cmd *cobra.Command, rows []tableRow) error {
	out := cmd.OutOrStdout()
	if asJSON(cmd) {
		var list []any
		for _, r := range rows {
			list = append(list, r.row)
		}
		return writeJSON(out, list)
	}
	var lines []string
	for _, r := range rows {
		lines = append(lines, terminal.Wrap(r.name+": "+limits(r.Expected), width(out))...)
		about := r.Source
		if r.Note != "" {
			about += "; " + r.Note
		}
		lines = append(lines, indented("  ", about, width(out))...)
	}
	return writeLines(out, lines)
}

// namedRows makes table rows of plain expected values.
func namedRows(named []expected.Named) []tableRow {
	var rows []tableRow
	for _, n := range named {
		rows = append(rows, tableRow{n.Name, n.Expected, n})
	}
	return rows
}

// limits says what is allowed in words.
func limits(e expected.Expected) string {
	w := func(v *float64) string { return written(*v, e.Unit) }
	switch {
	case e.Low != nil && e.High != nil && *e.Low == *e.High:
		return w(e.Low)
	case e.Low != nil && e.High != nil && e.Nominal != nil:
		return fmt.Sprintf("%s to %s, nominal %s", w(e.Low), w(e.High), w(e.Nominal))
	case e.Low != nil && e.High != nil:
		return fmt.Sprintf("%s to %s", w(e.Low), w(e.High))
	case e.Low != nil && e.Nominal != nil:
		return fmt.Sprintf("%s, at least %s", w(e.Nominal), w(e.Low))
	case e.Low != nil:
		return "at least " + w(e.Low)
	case e.High != nil:
		return "at most " + w(e.High)
	case e.Nominal != nil:
		return w(e.Nominal)
	}
	return "no limit"
}

// written gives a value in the trade's writing.
func written(v float64, unit string) string {
	for _, q := range []measurements.Quantity{measurements.ACVolts, measurements.Ohms, measurements.Amps, measurements.Celsius} {
		if q.Unit() == unit {
			return q.Approx(v)
		}
	}
	return fmt.Sprintf("%g %s", measurements.Significant(v, 4), unit)
}

// labelled sets a label before a text that hangs in its own column.
func labelled(label, text string, width int) []string {
	return indented(fmt.Sprintf("%-*s", labelWidth, label), text, width)
}

// indented sets text behind lead on its first line, and under itself after.
func indented(lead, text string, width int) []string {
	lines := terminal.Wrap(text, width-len(lead))
	for n := range lines {
		if n > 0 {
			lead = strings.Repeat(" ", len(lead))
		}
		lines[n] = lead + lines[n]
	}
	return lines
}

// width is the columns of the output: a terminal's own, else 80.
func width(out io.Writer) int {
	if f, ok := out.(*os.File); ok {
		if columns, _, err := term.GetSize(int(f.Fd())); err == nil && columns > 2*labelWidth {
			return columns
		}
	}
	return 80
}

func asJSON(cmd *cobra.Command) bool {
	on, err := cmd.Flags().GetBool("json")
	return err == nil && on
}

func writeJSON(out io.Writer, v any) error {
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}

func writeLines(out io.Writer, lines []string) error {
	_, err := io.WriteString(out, strings.Join(lines, "\n")+"\n")
	return err
}
