package trees

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"faultwalk/trees/strict"
)

var update = flag.Bool("update", false, "write what is reported into the cases; read every line before committing it")

const cases = "../testdata/trees"

// part is one file of a case.
type part struct{ name, text string }

// parts splits a case at its lines "-- name --"; what comes before the first is a remark, kept under no name.
func parts(t testing.TB, file string) []part {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	all := []part{{}}
	for line := range strings.Lines(string(data)) {
		name, marked := strings.CutPrefix(strings.TrimSpace(line), "-- ")
		if name, ok := strings.CutSuffix(name, " --"); ok && marked {
			all = append(all, part{name: name})
			continue
		}
		all[len(all)-1].text += line
	}
	return all
}

// laid gives the base set with the files of a case over it, and the case itself.
func laid(t testing.TB, file string) (fstest.MapFS, []part) {
	t.Helper()
	fsys := fstest.MapFS{}
	var last []part
	for _, name := range []string{cases + "/base.txtar", file} {
		if name == "" {
			continue
		}
		last = parts(t, name)
		for _, p := range last[1:] {
			if p.name != "want" {
				fsys[p.name] = &fstest.MapFile{Data: []byte(p.text)}
			}
		}
	}
	return fsys, last
}

func baseFS(t testing.TB) fstest.MapFS {
	fsys, _ := laid(t, "")
	return fsys
}

func baseSet(t testing.TB) *Set {
	t.Helper()
	s, problems := Load(baseFS(t), "base")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	return s
}

// expectReport compares what is reported with the file "want" of a case.
func expectReport(t *testing.T, file string, all []part, problems strict.Problems) {
	t.Helper()
	got := problems.Format(0)
	if got != "" {
		got += "\n"
	}
	last := &all[len(all)-1]
	if last.name != "want" {
		t.Fatalf(`%s: the last part is %q; expected "want"`, file, last.name)
	}
	if diff := cmp.Diff(last.text, got); diff != "" && !*update {
		t.Errorf("%s reports otherwise (-want +got):\n%s", file, diff)
	}
	if last.text = got; *update {
		rewrite(t, file, all)
	}
}

func rewrite(t *testing.T, file string, all []part) {
	t.Helper()
	text := all[0].text
	for _, p := range all[1:] {
		text += "-- " + p.name + " --\n" + p.text
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func eachCase(t *testing.T, folder string, run func(t *testing.T, file string)) {
	t.Helper()
	files, _ := filepath.Glob(filepath.Join(cases, folder, "*.txtar"))
	if len(files) == 0 {
		t.Fatalf("no cases in %s", folder)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			t.Parallel()
			run(t, file)
		})
	}
}

func TestWhatIsWrongIsReportedExactly(t *testing.T) {
	t.Parallel()
	eachCase(t, "bad", func(t *testing.T, file string) {
		fsys, a := laid(t, file)
		_, problems := Load(fsys, "")
		if len(problems) == 0 {
			t.Errorf("%s: nothing was reported", file)
		}
		expectReport(t, file, a, problems)
	})
}

func TestWhatIsWrongWithAPlantIsReportedExactly(t *testing.T) {
	t.Parallel()
	eachCase(t, "compose", func(t *testing.T, file string) {
		fsys, a := laid(t, file)
		s, problems := Load(fsys, "")
		if len(problems) != 0 {
			t.Fatalf("%s does not load:\n%s", file, problems.Format(0))
		}
		p, problems := s.Compose("one")
		if len(problems) == 0 || p != nil {
			t.Errorf("%s: a plant came out of it", file)
		}
		again, second := s.Compose("one")
		if again != nil || second.Format(0) != problems.Format(0) {
			t.Errorf("%s: composing twice reports otherwise:\n%s", file, second.Format(0))
		}
		expectReport(t, file, a, problems)
	})
}

func TestWhatIsRightIsAccepted(t *testing.T) {
	t.Parallel()
	eachCase(t, "good", func(t *testing.T, file string) {
		fsys, _ := laid(t, file)
		s, problems := Load(fsys, "")
		for id := range s.Plants {
			_, more := s.Compose(id)
			problems = append(problems, more...)
		}
		if len(problems) > 0 {
			t.Errorf("%s:\n%s", file, problems.Format(0))
		}
	})
}

func TestTheBaseOfTheCasesIsRight(t *testing.T) {
	t.Parallel()
	if _, problems := baseSet(t).Compose("one"); len(problems) > 0 {
		t.Error(problems.Format(0))
	}
}
