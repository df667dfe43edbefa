package monitor_test

import (
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// A judge that shares code with the judged repeats its mistakes.
func TestMonitorKnowsOnlyEventsAndPlants(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) == 0 {
		t.Fatal("no files of the package", err)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range f.Imports {
			path, _ := strconv.Unquote(i.Path.Value)
			if strings.HasPrefix(path, "faultwalk/") && !slices.Contains([]string{"faultwalk/engine/journal", "faultwalk/trees"}, path) {
				t.Errorf("%s imports %s", name, path)
			}
		}
	}
}
