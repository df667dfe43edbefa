package rehearse

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"faultwalk/trees"
)

// covered walks a lamp whose filament is broken, on a tree with some of its text
// replaced, and gives what nothing came to.
func covered(t *testing.T, file, text string, o Options) *Report {
	t.Helper()
	base, err := lampSet()
	if err != nil {
		t.Fatal(err)
	}
	set, problems := trees.Overlay(base, fstest.MapFS{file: {Data: []byte(text)}}, "mine")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	m := lamp(broke("f", 1, "lamp-filament", ""), map[string]reply{"lamp-fed": volts(231, 231), "lamp-ohms": ohms(1e4)})
	o.Plants = []string{"millrace-small"}
	r, err := run(set, o, func(*trees.Set, *trees.Plant) (model, error) { return m, nil }, lampSigns)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// of counts those that stand in the files laid over.
func of(list []string) (n int) {
	for _, one := range list {
		if strings.HasPrefix(one, "mine/") {
			n++
		}
	}
	return n
}

func TestBranchThatNothingTakesIsTooManyUnlessItSaysWhy(t *testing.T) {
	t.Parallel()
	file := "symptoms/lamp-dark.yaml"
	plain := covered(t, file, lampTree, Options{})
	said := covered(t, file, swap(t, lampTree, "meaning: it sits loose", "meaning: it sits loose\n        untaken: nobody loosens it"), Options{})
	if of(plain.Untaken) == 0 || of(said.Untaken) != of(plain.Untaken)-1 || of(said.Untrue) != 0 {
		t.Errorf("%d branches, and %d where one says why, %q untrue", of(plain.Untaken), of(said.Untaken), said.Untrue)
	}
}

func TestReasonOfABranchThatIsTakenIsUntrue(t *testing.T) {
	t.Parallel()
	r := covered(t, "symptoms/lamp-dark.yaml", swap(t, lampTree, "meaning: it is dark", "meaning: it is dark\n        untaken: it never is"), Options{})
	if of(r.Untrue) != 1 {
		t.Errorf("%q untrue, expected the branch that was taken", r.Untrue)
	}
}

func TestCauseThatNothingComesToIsTooManyUnlessItSaysWhy(t *testing.T) {
	t.Parallel()
	file := "causes/lamp.yaml"
	unreached := func(r *Report, id string) bool {
		return slices.ContainsFunc(r.Unreached, func(s string) bool { return strings.HasSuffix(s, ": "+id) })
	}
	plain := covered(t, file, lampCauses, Options{})
	if !unreached(plain, "lamp-loose") || unreached(plain, "lamp-filament") {
		t.Errorf("unreached: %q", plain.Unreached)
	}
	said := covered(t, file, swap(t, lampCauses, "words: it sits loose", "words: it sits loose\n  observed: only a hand can tell"), Options{})
	if unreached(said, "lamp-loose") || of(said.Untrue) != 0 {
		t.Errorf("unreached: %q, untrue: %q", said.Unreached, said.Untrue)
	}
	untrue := covered(t, file, swap(t, lampCauses, "words: its filament is broken", "words: its filament is broken\n  observed: only seen"), Options{})
	if of(untrue.Untrue) != 1 {
		t.Errorf("%q untrue, expected the cause that was reached", untrue.Untrue)
	}
}

// Gates of coverage stand only where everybody walked everything with draws.
func TestCoverageIsAGateOfAThoroughRehearsalAlone(t *testing.T) {
	t.Parallel()
	everybody := append([]Person{Engineer(Options{}.filled().Kit)}, Everyone(Options{}.filled().Kit)...)
	whole := Options{Noise: 1, Persons: everybody}
	r := &Report{Untaken: []string{"a branch"}}
	if !slices.ContainsFunc(whole.gates(r), func(g Gate) bool { return strings.HasPrefix(g.Name, "every branch") && !g.Holds }) {
		t.Error("a branch that nothing took passes")
	}
	part := whole
	part.Symptoms = []string{"lamp-dark"}
	if slices.ContainsFunc(part.gates(r), func(g Gate) bool { return strings.HasPrefix(g.Name, "every branch") }) {
		t.Error("coverage is asked of a part")
	}
}
