package command

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"faultwalk/measurements/expected"
)

// longestTable is the most bytes read of a sensor's table.
const longestTable = 1 << 20

// The columns a sensor's table must have; others are passed over.
const (
	celsiusColumn = "temperature_C"
	ohmsColumn    = "resistance_ohm"
)

// readTable reads a sensor's table from a CSV file. Errors name file and line.
func readTable(path string) (expected.Curve, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("sensor table: %w", err)
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, longestTable+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("sensor table %s: %w", path, err)
	case len(data) > longestTable:
		return nil, fmt.Errorf("%s: larger than %d bytes: that is no sensor's table", path, longestTable)
	}
	points, lines, err := tablePoints(path, string(data))
	if err != nil {
		return nil, err
	}
	table, err := expected.NewTable(points, "table "+filepath.Base(path))
	var bad *expected.PointError
	if errors.As(err, &bad) {
		line := 1
		if bad.Index >= 0 {
			line = lines[bad.Index]
		}
		return nil, fmt.Errorf("%s:%d: %s", path, line, bad.Message)
	}
	return table, err
}

// tablePoints gives the points and the line each stands on.
func tablePoints(path, text string) (points []expected.Point, lines []int, err error) {
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff")))
	r.TrimLeadingSpace, r.Comment = true, '#'
	header, err := r.Read()
	celsius, ohms := slices.Index(header, celsiusColumn), slices.Index(header, ohmsColumn)
	if err != nil || celsius < 0 || ohms < 0 {
		return nil, nil, fmt.Errorf("%s:1: expected a first line with the columns %s,%s", path, celsiusColumn, ohmsColumn)
	}
	for {
		cells, err := r.Read()
		if err == io.EOF {
			return points, lines, nil
		}
		var broken *csv.ParseError
		if errors.As(err, &broken) {
			return nil, nil, fmt.Errorf("%s:%d: %v", path, broken.Line, broken.Err)
		}
		line, _ := r.FieldPos(0)
		point, err := tablePoint(cells[celsius], cells[ohms])
		if err != nil {
			return nil, nil, fmt.Errorf("%s:%d: %w", path, line, err)
		}
		points, lines = append(points, point), append(lines, line)
	}
}

func tablePoint(celsius, ohms string) (expected.Point, error) {
	t, err := strconv.ParseFloat(strings.TrimSpace(celsius), 64)
	if err != nil {
		return expected.Point{}, fmt.Errorf("%s is %q: expected degrees like 20.5", celsiusColumn, celsius)
	}
	r, err := strconv.ParseFloat(strings.TrimSpace(ohms), 64)
	if err != nil {
		return expected.Point{}, fmt.Errorf("%s is %q: expected ohms like 12490", ohmsColumn, ohms)
	}
	return expected.Point{Celsius: t, Ohms: r}, nil
}
