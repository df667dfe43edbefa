package vet_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/strict"
	"faultwalk/trees/vet"
)

func TestJSONSaysWhatTheTextSays(t *testing.T) {
	t.Parallel()
	data, err := json.Marshal(laid(t, filepath.Join(cases, "gap", "broken")))
	if err != nil {
		t.Fatal(err)
	}
	want := `{"graphs":4,"steps":20,"checks":6,"causes":5,"cases":0,"problems":[{"file":"own/symptoms/own.yaml","line":7,"col":9,` +
		`"kind":"gap","message":"no branch owns reading exactly 0.5 Ω; for example reading = 0.5 Ω","witness":"reading = 0.5 Ω","plants":["one","two"]}]}`
	if diff := cmp.Diff(want, string(data)); diff != "" {
		t.Error(diff)
	}
}

func TestACleanReportHasAnEmptyListOfProblems(t *testing.T) {
	t.Parallel()
	data, err := json.Marshal(vet.Vet(base(t), measurements.DefaultKit(), nil))
	if want := `{"graphs":2,"steps":18,"checks":6,"causes":5,"cases":0,"problems":[]}`; err != nil || string(data) != want {
		t.Errorf("%s, %v; want %s", data, err, want)
	}
}

func TestTextIsCappedAndSaysHowManyMore(t *testing.T) {
	t.Parallel()
	r := vet.Report{Graphs: 1, Steps: 2, Checks: 1, Causes: 0}
	for i := range 5 {
		r.Problems = append(r.Problems, vet.Problem{File: "f.yaml", Line: i + 1, Col: 1, Message: "wrong"})
	}
	want := "f.yaml:1:1: wrong\nf.yaml:2:1: wrong\n… and 3 more\n1 graph, 2 steps, 1 check, 0 causes: 5 problems"
	if got := r.Text(2); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if got := r.Text(0); strings.Count(got, "wrong") != 5 {
		t.Errorf("uncapped:\n%s", got)
	}
}

func TestWhatCannotBeReadIsReportedWithItsPlace(t *testing.T) {
	t.Parallel()
	r := vet.Unread(strict.Problems{{File: "b", Line: 2, Col: 3, Message: "later"}, {File: "a", Line: 1, Col: 1, Message: "first"}})
	if got, want := r.Text(0), "a:1:1: first\nb:2:3: later\n0 graphs, 0 steps, 0 checks, 0 causes: 2 problems"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestUndecidedConditionsAreListedWithTheReasonAndAreNoProblem(t *testing.T) {
	t.Parallel()
	r := laid(t, filepath.Join(cases, "no-else", "mended"))
	want := "undecided, left to its else: own/symptoms/own.yaml:10:39: \"made(reading) and reading * reading < 0.1\": the reading reading comes twice in one number\n" +
		"4 graphs, 20 steps, 6 checks, 5 causes: clean"
	if got := r.Text(0); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestProgressReachesItsEnd(t *testing.T) {
	t.Parallel()
	var calls []string
	vet.Vet(base(t), measurements.DefaultKit(), func(done, total int) { calls = append(calls, fmt.Sprint(done, "/", total)) })
	if want := []string{"0/2", "1/2", "2/2"}; !slices.Equal(calls, want) {
		t.Errorf("got %v, want %v", calls, want)
	}
}

// What an author of one's own trees leaves unused of the embedded ones is not theirs to mend.
func TestUnusedThingsAreReportedOfTheLastLayerAlone(t *testing.T) {
	t.Parallel()
	set, problems := trees.Overlay(base(t), filesOf("symptoms/cold.yaml", strings.Replace(ownTree(look("s0", "refer: watch")), "own", "cold", 1)), "own")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if r := vet.Vet(set, measurements.DefaultKit(), nil); !r.Clean() {
		t.Error(r.Text(0))
	}
}

// changed is the base with something replaced in one of its files.
func changed(t *testing.T, file, old, new string) vet.Report {
	t.Helper()
	fsys := vet.Base(t)
	text := string(fsys[file].Data)
	if !strings.Contains(text, old) {
		t.Fatalf("%s has no %q", file, old)
	}
	fsys[file].Data = []byte(strings.Replace(text, old, new, 1))
	set, problems := trees.Load(fsys, "")
	if len(problems) > 0 {
		return vet.Unread(problems)
	}
	return vet.Vet(set, measurements.DefaultKit(), nil)
}

// What only the program's own trees may bring cannot be laid over them, so
// these defects are made in the base itself.
func TestSafetyDataIsWhole(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ file, old, new, want string }{
		"a referral of the program": {"referrals/all.yaml", "- id: voltage-found", "- id: volts-found",
			`referrals:1:1: the program leads to the referral "voltage-found", and there is none`},
		"a referral nothing leads to": {"referrals/all.yaml", "- id: voltage-found", "- id: volts-found",
			`referrals/all.yaml:53:7: nothing leads to the referral "volts-found"`},
		"a moment without a caution": {"cautions/all.yaml", "    - earth-pair\n", "",
			`cautions/all.yaml:1:1: no caution is shown at the moment "earth-pair"`},
		"a stop no check can meet": {"stops/all.yaml", "sound(ln) and between", "dead(ln) and sound(ln) and between",
			`stops/all.yaml:1:7: no reading of any step meets this stop`},
		"a stop no check takes": {"symptoms/cold.yaml", "check: triple at permanent-live", "check: driven at permanent-live calling hot-water",
			`stops/all.yaml:1:7: no check takes all the readings that the stop "half-and-half" names`},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if text := changed(t, c.file, c.old, c.new).Text(0); !slices.Contains(strings.Split(text, "\n"), c.want) {
				t.Errorf("reported:\n%s\nexpected among it:\n%s", text, c.want)
			}
		})
	}
}

func TestEveryKindOfProblemHasACase(t *testing.T) {
	t.Parallel()
	met := map[vet.Kind]bool{vet.TooMuch: true, vet.Unreadable: true} // elsewhere in this package
	folders, _ := filepath.Glob(cases + "/*/broken")
	for _, f := range folders {
		for _, p := range laid(t, f).Problems {
			met[p.Kind] = true
		}
	}
	for _, k := range []vet.Kind{vet.Unreadable, vet.Unbindable, vet.Gap, vet.Overlap, vet.DeadBranch, vet.IdleElse, vet.NeedlessElse, vet.NoElse,
		vet.Condition, vet.NeverHolds, vet.AlwaysHolds, vet.Overload, vet.Unreachable, vet.Unused, vet.Missing, vet.Unproved, vet.Pairing,
		vet.Closed, vet.NotDead, vet.Wording, vet.Fact, vet.TooMuch} {
		if !met[k] {
			t.Errorf("no case of the kind %q; there are %v", k, slices.Sorted(maps.Keys(met)))
		}
	}
}

func TestPlacesOfAnExpectationThatAreNotTriedAreSaid(t *testing.T) {
	t.Parallel()
	below := times(20, func(i int) string { return fmt.Sprintf(" or reading < %d", i+2) })
	set, problems := trees.Overlay(base(t), filesOf("symptoms/own.yaml", strings.Replace(ownTree(
		"  - id: s0\n    check: sensor-ohms of sensor\n    branches:\n      - if: reading < 1"+below+"\n        refer: watch\n      - if: reading >= 21\n        refer: watch\n"),
		"cleared", "plants: has(\"sensor\")\ncleared", 1)), "own")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	r := vet.Vet(set, measurements.DefaultKit(), nil)
	if want := []string{`some places of what the check "sensor-ohms" expects: it is compared with more than 16 numbers`}; !slices.Equal(r.LeftOut, want) || !r.Clean() {
		t.Errorf("reported:\n%s\nleft out %q, want %q", r.Text(0), r.LeftOut, want)
	}
}
