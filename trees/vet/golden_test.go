package vet_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/vet"
)

var update = flag.Bool("update", false, "write what is reported into the cases; read every line before committing it")

const cases = "../../testdata/vet"

// base is a small tree set in which everything is right; the cases are laid over it.
func base(t testing.TB) *trees.Set {
	t.Helper()
	s, problems := trees.Load(vet.Base(t), "base")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	return s
}

// laid vets the trees of a folder laid over the base.
func laid(t *testing.T, folder string) vet.Report {
	t.Helper()
	s, problems := trees.Overlay(base(t), os.DirFS(folder), "own")
	if len(problems) > 0 {
		return vet.Unread(problems)
	}
	return vet.Vet(s, measurements.DefaultKit(), nil)
}

func TestTheBaseOfTheCasesIsClean(t *testing.T) {
	t.Parallel()
	if r := vet.Vet(base(t), measurements.DefaultKit(), nil); !r.Clean() {
		t.Error(r.Text(0))
	}
}

// Each case is one defect, the exact report on it, and the same trees with the
// defect mended.
func TestEveryDefectIsReportedExactlyAndItsMendedTwinIsClean(t *testing.T) {
	t.Parallel()
	folders, err := filepath.Glob(cases + "/*/broken")
	if err != nil || len(folders) == 0 {
		t.Fatalf("no cases in %s: %v", cases, err)
	}
	for _, broken := range folders {
		folder := filepath.Dir(broken)
		t.Run(filepath.Base(folder), func(t *testing.T) {
			t.Parallel()
			r := laid(t, broken)
			if r.Clean() {
				t.Error("nothing was found")
			}
			expectReport(t, filepath.Join(folder, "want.txt"), r.Text(0)+"\n")
			if twin := laid(t, filepath.Join(folder, "mended")); !twin.Clean() {
				t.Errorf("the mended twin is not clean:\n%s", twin.Text(0))
			}
		})
	}
}

func expectReport(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s reports otherwise (-want +got):\n%s", file, diff)
	}
}
