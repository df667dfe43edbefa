package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The house has four floors; imports run only downward.
var floors = []string{"measurements", "trees", "engine", "cmd"}

const root = "../.."

func TestImportsRunOnlyDownward(t *testing.T) {
	t.Parallel()
	for file, imports := range ourImports(t) {
		from := floor(file)
		for _, imp := range imports {
			to := floor(strings.TrimPrefix(imp, "faultwalk/"))
			if to > from {
				t.Errorf("%s, on the floor %s, imports %s from above", file, floors[from], imp)
			}
		}
	}
}

// walk gives a job its order from the trees alone: what the wiring model or the
// probabilities say is shown beside it, never in it.
func TestWalkImportsNeitherNetworkNorPlantNorSuspects(t *testing.T) {
	t.Parallel()
	for file, imports := range ourImports(t) {
		for _, imp := range imports {
			if strings.HasPrefix(file, "engine/walk/") && slices.Contains([]string{"faultwalk/engine/network", "faultwalk/engine/plant", "faultwalk/engine/suspects"}, imp) {
				t.Errorf("%s imports %s", file, imp)
			}
		}
	}
}

// The monitor judges what guard and planner let through, so it shares no code with them.
func TestTheMonitorSharesNoCodeWithTheGuard(t *testing.T) {
	t.Parallel()
	for file, imports := range ourImports(t) {
		for _, imp := range imports {
			if strings.HasPrefix(file, "engine/monitor/") && !strings.HasSuffix(file, "_test.go") &&
				!slices.Contains([]string{"faultwalk/engine/journal", "faultwalk/trees", "faultwalk/measurements"}, imp) {
				t.Errorf("%s imports %s", file, imp)
			}
		}
	}
}

// Below the faces nothing touches files, the network or the clock.
func TestTheEngineDoesNoInputOrOutput(t *testing.T) {
	t.Parallel()
	banned := []string{"os", "net", "net/http", "os/exec", "io/ioutil", "syscall", "log"}
	for file, imports := range imports(t) {
		if strings.HasPrefix(file, "cmd/") || strings.HasSuffix(file, "_test.go") {
			continue
		}
		for _, imp := range imports {
			if slices.Contains(banned, imp) {
				t.Errorf("%s imports %s", file, imp)
			}
		}
		text, err := os.ReadFile(filepath.Join(root, file))
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), "time.Now(") {
			t.Errorf("%s reads the clock", file)
		}
	}
}

func floor(path string) int {
	top, _, _ := strings.Cut(path, "/")
	return slices.Index(floors, top)
}

func ourImports(t *testing.T) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	for file, all := range imports(t) {
		for _, imp := range all {
			if strings.HasPrefix(imp, "faultwalk/") {
				out[file] = append(out[file], imp)
			}
		}
	}
	if len(out) < 20 {
		t.Fatalf("only %d files with imports of ours were found: the test looks in the wrong place", len(out))
	}
	return out
}

// imports lists what each Go file of the house imports, by path from the top.
func imports(t *testing.T) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	for _, f := range floors {
		err := filepath.WalkDir(filepath.Join(root, f), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") {
				return err
			}
			parsed, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
			if err != nil {
				return err
			}
			rel, err := filepath.Rel(root, path)
			for _, i := range parsed.Imports {
				name, _ := strconv.Unquote(i.Path.Value)
				out[filepath.ToSlash(rel)] = append(out[filepath.ToSlash(rel)], name)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return out
}
