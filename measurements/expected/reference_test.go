package expected_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// referenceDir holds tables copied from outside, each row with its source.
const referenceDir = "../../testdata/reference"

// reference says how many rows a file has and how one row is checked. The check
// must look at every numeric cell but those in the exceptions.
type reference struct {
	rows  int
	check func(*row)
}

// exception is a cell that is not checked, or not against its own number.
type exception struct{ file, name, column, reason string }

// row is one line of a reference file, which remembers the cells looked at.
type row struct {
	*testing.T
	cells map[string]string
	used  map[string]bool
}

func (r *row) text(column string) string {
	r.Helper()
	cell, ok := r.cells[column]
	if !ok {
		r.Fatalf("there is no column %q", column)
	}
	r.used[column] = true
	return cell
}

func (r *row) number(column string) float64 {
	r.Helper()
	v, err := strconv.ParseFloat(r.text(column), 64)
	if err != nil {
		r.Fatalf("%s: %v", column, err)
	}
	return v
}

// given reports whether the cell holds a number.
func (r *row) given(column string) bool {
	_, err := strconv.ParseFloat(r.cells[column], 64)
	return err == nil
}

// equals compares a computed value with a cell within the cell's last digit.
func (r *row) equals(column string, got, within float64) {
	r.Helper()
	if want := r.number(column); !(math.Abs(got-want) <= within) {
		r.Errorf("%s: computed %.8g, the table has %g (±%g)", column, got, want, within)
	}
}

// optional is equals for a cell that may be empty.
func (r *row) optional(column string, got, within float64) {
	r.Helper()
	if r.given(column) {
		r.equals(column, got, within)
	}
}

func (r *row) ok(err error) {
	r.Helper()
	if err != nil {
		r.Fatal(err)
	}
}

var numbersIn = regexp.MustCompile(`[0-9]+(?:\.[0-9]+)?(?:e-?[0-9]+)?`)

// numbers finds every number in a text cell such as "4-24" or "< 0.1 to 0.5".
func (r *row) numbers(column string) []float64 {
	r.Helper()
	var found []float64
	for _, text := range numbersIn.FindAllString(r.text(column), -1) {
		v, err := strconv.ParseFloat(text, 64)
		r.ok(err)
		found = append(found, v)
	}
	return found
}

// readReference gives the header and rows of a file.
func readReference(t *testing.T, name string) (header []string, rows [][]string) {
	t.Helper()
	file, err := os.Open(filepath.Join(referenceDir, name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %v", name, err)
	}
	return all[0], all[1:]
}

func TestEveryNumericCellOfEveryReferenceIsReproduced(t *testing.T) {
	t.Parallel()
	checks := references()
	files, err := filepath.Glob(filepath.Join(referenceDir, "*.csv"))
	if err != nil || len(files) != len(checks) {
		t.Errorf("%d files, %d checks (%v)", len(files), len(checks), err)
	}
	hit := make([]bool, len(exceptions()))
	for _, path := range files {
		name := filepath.Base(path)
		c, ok := checks[name]
		if !ok {
			t.Errorf("%s is read by no check", name)
			continue
		}
		checkFile(t, name, c, hit)
	}
	for n, e := range exceptions() {
		if !hit[n] {
			t.Errorf("exception matches no cell: %+v", e)
		}
	}
}

func checkFile(t *testing.T, name string, c reference, hit []bool) {
	header, rows := readReference(t, name)
	if len(rows) != c.rows {
		t.Errorf("%s has %d rows, want %d", name, len(rows), c.rows)
	}
	if header[len(header)-1] != "source" {
		t.Errorf("%s: the last column is %q, want the source", name, header[len(header)-1])
	}
	for n, cells := range rows {
		t.Run(fmt.Sprintf("%s line %d", name, n+2), func(t *testing.T) {
			r := &row{T: t, cells: map[string]string{}, used: map[string]bool{"source": true}}
			for i, column := range header {
				r.cells[column] = cells[i]
			}
			c.check(r)
			r.leftOver(name, cells[0], hit)
		})
	}
}

// documentary columns say where a row comes from or under which conditions, in
// words; their numbers are clauses and years.
func documentary(column string) bool {
	switch column {
	case "source", "document", "clause", "note", "condition", "table", "cable", "unit":
		return true
	}
	return false
}

// leftOver reports cells with a digit that nobody looked at and no exception excuses.
func (r *row) leftOver(file, name string, hit []bool) {
	r.Helper()
	for column := range r.cells {
		if excused(file, name, column, hit) || r.used[column] || documentary(column) || !strings.ContainsAny(r.cells[column], "0123456789") {
			continue
		}
		r.Errorf("%s: %q is checked by nothing", column, r.cells[column])
	}
}

func excused(file, name, column string, hit []bool) bool {
	found := false
	for n, e := range exceptions() {
		if e.file == file && e.column == column && (e.name == "" || strings.HasPrefix(name, e.name)) {
			hit[n], found = true, true
		}
	}
	return found
}
