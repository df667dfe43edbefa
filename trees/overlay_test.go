package trees

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"faultwalk/trees/strict"
)

func fileOf(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }

// filesOf gives a set of files as path, text, path, text.
func filesOf(pairs ...string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for i := 0; i < len(pairs); i += 2 {
		fsys[pairs[i]] = fileOf(pairs[i+1])
	}
	return fsys
}

func expectProblem(t *testing.T, problems strict.Problems, want string) {
	t.Helper()
	if !strings.Contains(problems.Format(0), want) {
		t.Errorf("expected: %s\nreported:\n%s", want, problems.Format(20))
	}
}

const ownLook = `
- id: warms
  look: Is it warm, would you say?
  minutes: 1
  answers:
    - id: rises
      say: yes it is
    - id: stays
      say: no
`

func TestOwnTreesReplaceAndAdd(t *testing.T) {
	t.Parallel()
	base := baseSet(t)
	s, problems := Overlay(base, filesOf("checks/own.yaml", ownLook, "scales/own.yaml", "- id: mine\n  bands:\n    - {band: all}\n",
		"referrals/own.yaml", "- id: friend\n  words: ask a friend\n"), "own")
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	if got := s.Checks["warms"].Look.Value; got != "Is it warm, would you say?" {
		t.Errorf("the look asks %q", got)
	}
	if s.Checks["warms"].Pos.File != "own/checks/own.yaml" {
		t.Errorf("it is said to be in %s", s.Checks["warms"].Pos.File)
	}
	if s.Scales["mine"] == nil || s.Referrals["friend"] == nil {
		t.Error("what was added is not there")
	}
	if base.Checks["warms"].Look.Value != "Does it get warm?" || base.Scales["mine"] != nil {
		t.Error("the base was changed")
	}
}

func TestOwnTreesCannotTouchWhatKeepsPeopleSafe(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ file, text, want string }{
		"jurisdiction": {"jurisdictions/xx.yaml", "jurisdiction: xx\n",
			"own/jurisdictions/xx.yaml:1:1: trees from outside may not bring jurisdictions; they come from this program alone"},
		"a new jurisdiction": {"jurisdictions/yy.yaml", "", "own/jurisdictions/yy.yaml:1:1: trees from outside may not bring jurisdictions"},
		"cautions":           {"cautions/x.yaml", "- id: x\n", "own/cautions/x.yaml:1:1: trees from outside may not bring cautions"},
		"stops":              {"stops/x.yaml", "- id: x\n", "own/stops/x.yaml:1:1: trees from outside may not bring stops"},
		"mains": {"scales/x.yaml", "# mine\n- bands:\n    - {band: all}\n  id: mains\n",
			`own/scales/x.yaml:4:7: the scale "mains" cannot be replaced by trees from outside; give yours another id`},
		"referral": {"referrals/x.yaml", "- id: watch\n  words: nothing\n",
			`own/referrals/x.yaml:1:7: the referral "watch" cannot be replaced by trees from outside`},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			base := baseSet(t)
			s, problems := Overlay(base, filesOf(c.file, c.text), "own")
			expectProblem(t, problems, c.want)
			if s.SafetyHash() == base.SafetyHash() {
				return
			}
			if len(s.Cautions) != len(base.Cautions) || len(s.Stops) != len(base.Stops) || s.Scales["mains"].text() != base.Scales["mains"].text() {
				t.Error("the safety data changed all the same")
			}
		})
	}
}

func TestOwnTreesMayOnlyDemandMore(t *testing.T) {
	t.Parallel()
	_, problems := Overlay(baseSet(t), filesOf("causes/own.yaml", `
- {id: limit-open, of: {of: part}, words: x, remedy: {do: x, asks: [pipes]}}
- {id: open-core, of: {of: core}, words: x, remedy: {do: x}}
- {id: valve-stuck, of: {of: part}, words: x, remedy: {do: x, dead: true, asks: [limit]}}
`), "own")
	want := `own/causes/own.yaml:2:8: "limit-open" takes the place of one that asks "limit"; expected it to ask for that too
own/causes/own.yaml:3:8: "open-core" takes the place of one that is done dead; expected "dead: true"`
	if got := problems.Format(0); got != want {
		t.Errorf("reported:\n%s\nexpected:\n%s", got, want)
	}
}

func TestReplacingACheckReportsTheBranchesItLeavesBehind(t *testing.T) {
	t.Parallel()
	_, problems := Overlay(baseSet(t), filesOf("checks/own.yaml", strings.ReplaceAll(ownLook, "id: rises", "id: warm")), "own")
	expectProblem(t, problems, `base/symptoms/cold.yaml:11:17: "rises" is no answer of "warms"; expected one of "stays", "warm"`)
}

func TestOnlyTheReplacedThingIsForgotten(t *testing.T) {
	t.Parallel()
	_, problems := Overlay(baseSet(t), filesOf("symptoms/cold.yaml", `
symptom: cold
sign: cold
cleared: warms
start: look
steps:
  - id: look
    check: warms
    branches:
      - answer: [rises, stays]
        refer: watch
`, "checks/driven.yaml", "- id: driven\n  look: Is it driven?\n  minutes: 1\n  answers:\n    - id: it-is\n      say: it is\n"), "own")
	if len(problems) > 0 { // the old symptom split by "driven at $point calling …"; nobody does now
		t.Error(problems.Format(0))
	}
}

func TestOwnTreesAreHeldToLimits(t *testing.T) {
	t.Parallel()
	many, large, most := fstest.MapFS{}, filesOf("checks/a.yaml", strings.Repeat("#", maxFile+1)), fstest.MapFS{}
	for i := range maxFiles + 2 {
		many[fmt.Sprintf("checks/f%04d.yaml", i)] = fileOf("")
		most[fmt.Sprintf("%s/f%04d.yaml", []string{"checks", "causes"}[i%2], i)] = fileOf("")
	}
	full := fstest.MapFS{}
	for i := range 5 {
		full[fmt.Sprintf("checks/f%d.yaml", i)] = fileOf(strings.Repeat("#", maxFile))
	}
	linked := filesOf("checks/a.yaml", ownLook)
	linked["checks/a.yaml"].Mode = fs.ModeSymlink
	for name, c := range map[string]struct {
		fsys fs.FS
		want string
	}{
		"too many in a folder": {many, "own/checks:1:1: the folder holds more than 1000 files; expected at most that"},
		"too many together":    {most, "own/checks/f0998.yaml:1:1: more than 1000 files; this one and the rest are not read"},
		"too large":            {large, "own/checks/a.yaml:1:1: has more than 4194304 bytes; expected at most that"},
		"too large together":   {full, "own/checks/f4.yaml:1:1: with this file the trees have more than 16777216 bytes; this one and the rest are not read"},
		"a link":               {linked, "own/checks/a.yaml:1:1: is no plain file; expected one, no link or device"},
		"too deep":             {filesOf("checks/a.yaml", strings.Repeat("- ", 40)+"x"), "nested too deeply; expected at most 32 levels"},
		"aliases":              {filesOf("checks/a.yaml", "- &a [x]\n- [*a, *a]\n"), "own/checks/a.yaml:1:3: found the anchor &a"},
		"nothing there":        {fstest.MapFS{"x": fileOf("")}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			_, problems := Overlay(baseSet(t), c.fsys, "own")
			expectProblem(t, problems, c.want)
		})
	}
}

// What costs a hostile author nothing must not cost the reader much: without its bound each of these grows with the
// square of its size.
func TestHostileTreesAreCutShort(t *testing.T) {
	t.Parallel()
	const n = 2500
	lines := func(format string) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	steps := "symptom: a\nsign: a\ncleared: warms\nstart: a\nsteps:\n  - id: a\n    check: warms\n    branches:\n"
	for name, c := range map[string]struct{ file, text, want string }{
		"a long text": {"checks/a.yaml", "- id: a\n  look: " + strings.Repeat("$a", 20_000) + "\n  minutes: 1\n",
			"own/checks/a.yaml:2:9: the text has 40000 bytes; expected at most 20000"},
		"parameters": {"checks/a.yaml", "- id: a\n  of:\n" + lines("    p%d: part\n") + "  look: $q\n  minutes: 1\n",
			"own/checks/a.yaml:67:5: more than 64 parameters; expected at most that"},
		"answers": {"checks/a.yaml", "- id: a\n  minutes: 1\n  look: x\n  answers:\n" + lines("    - {id: a%d, say: x}\n"),
			"own/checks/a.yaml:69:7: the list has 2500 items; expected at most 64"},
		"bands": {"scales/a.yaml", "- id: a\n  bands:\n" + lines("    - {band: a%d, to: \"1\"}\n"),
			"own/scales/a.yaml:67:7: the list has 2500 items; expected at most 64"},
		"exits": {"routines/a.yaml", "- id: a\n  exits:\n" + lines("    - e%d\n") + "  start: x\n  steps: []\n",
			"own/routines/a.yaml:67:7: more than 64 exits; expected at most that"},
		"branches": {"symptoms/a.yaml", steps + lines("      - {answer: a%d, go: b}\n"),
			"own/symptoms/a.yaml:73:9: the list has 2500 items; expected at most 64"},
		"brackets": {"scales/a.yaml", "- id: a\n  bands:\n    - {band: a, to: \"" + strings.Repeat("(", 400) + "\"}\n    - band: b\n",
			"own/scales/a.yaml:3:22: in the edge of a band: brackets nest deeper than 32"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			_, problems := Overlay(baseSet(t), filesOf(c.file, c.text), "own")
			expectProblem(t, problems, c.want)
		})
	}
}

func TestTheRestOfManyProblemsIsNotLookedAt(t *testing.T) {
	t.Parallel()
	fsys := fstest.MapFS{}
	for i := range 4 {
		fsys[fmt.Sprintf("causes/c%d.yaml", i)] = fileOf(strings.Repeat("- {}\n", 900))
	}
	_, problems := Overlay(baseSet(t), fsys, "own")
	expectProblem(t, problems, "own/causes/c1.yaml:334:3: more than 1000 problems; the rest is not listed")
	expectProblem(t, problems, "own/causes/c2.yaml:1:1: more than 2000 problems before this file; the rest is not looked at")
}

func TestSuggestionsEnd(t *testing.T) {
	t.Parallel()
	var b strings.Builder
	for i := range 500 {
		fmt.Fprintf(&b, "- id: r%d\n  start: a\n  steps:\n    - {id: a, routine: r%dx}\n", i, i)
	}
	_, problems := Overlay(baseSet(t), filesOf("routines/a.yaml", b.String()), "own")
	if n := strings.Count(problems.Format(0), "did you mean"); len(problems) != 500 || n != maxSuggestions {
		t.Errorf("%d problems, %d suggestions", len(problems), n)
	}
}
