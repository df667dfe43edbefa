package strict

import (
	"fmt"
	"strings"
	"testing"
)

func TestHostileFilesAreRefusedWithinLimits(t *testing.T) {
	t.Parallel()
	small := Limits{Size: 4000, Depth: 4, Nodes: 50, Problems: 3}
	for _, c := range []struct{ name, src, want string }{
		{"size", strings.Repeat("a", 4001), "f:1:1: the file has 4001 bytes; expected at most 4000"},
		{"depth of lists", "[[[[[a]]]]]", "f:1:5: nested too deeply; expected at most 4 levels"},
		{"depth of mappings", "{a: {a: {a: {a: {a: b}}}}}", "f:1:17: nested too deeply; expected at most 4 levels"},
		{"marks", strings.Repeat("- a\n", 100), "f:1:1: the file holds too many values; expected at most 50"},
		{"values", "[" + strings.Repeat("a,", 60) + "]", "f:1:100: too many values; expected at most 50 in a file"},
		{"brackets", strings.Repeat("[", 40), "f:1:1: not YAML: did not find expected node content"},
		{"problems", "[.inf,.inf,.inf,.inf,.inf]", "f:1:2: found .inf; expected a finite number, or quotes around a text\n" +
			"f:1:7: found .inf; expected a finite number, or quotes around a text\n" +
			"f:1:12: found .inf; expected a finite number, or quotes around a text\n" +
			"f:1:17: more than 3 problems; the rest is not listed"},
	} {
		if got := Parse("f", []byte(c.src), small).Problems().Format(0); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// Each of these once made a YAML reader slow, deep or large. Half a megabyte of each must be over in a moment; the
// test fails by the suite's time limit.
func TestHostilePatternsEnd(t *testing.T) {
	t.Parallel()
	const size = 512 << 10
	for _, unit := range []string{"[", "{", "- ", "-\n", "a,", "#\n", "- a\n#x\n", "a: b\n", ": ", "? ", "? a\n", "- &a a\n", "---\n",
		" ", "a\n", "!a ", "%a\n", "\n", "a:b,c:", "\t", "\"a\",", "'", "|\n", "\u00e9"} {
		for _, frame := range [][2]string{{"", ""}, {"[", "]"}, {"{a: ", "}"}, {"a: \"", "\""}, {"a: |\n ", ""}} {
			src := frame[0] + strings.Repeat(unit, size/len(unit)/8) + frame[1]
			Parse("f", []byte(src), Limits{})
		}
	}
}

// steps makes a file of n steps of about 350 bytes.
func steps(n int) []byte {
	var b strings.Builder
	b.WriteString("symptom: large\nsteps:\n")
	for i := range n {
		fmt.Fprintf(&b, `  - id: step-%d
    check: driven at limit-out calling hot-water
    why: the core between the limit thermostat and the board is driven only while hot water is called
    branches:
      - if: between(reading, %d, %d)
        meaning: the voltage is where it belongs
        go: step-%d
      - else: true
        refer: supply-out-of-limits
`, i, i, i+10, i+1)
	}
	return []byte(b.String())
}

func TestTenThousandStepsPass(t *testing.T) {
	t.Parallel()
	s := Parse("large.yaml", steps(10_000), Limits{})
	expectProblems(t, s)
	m := s.Root.Map("a tree")
	m.Text("symptom")
	if got := len(m.List("steps")); got != 10_000 {
		t.Errorf("%d steps", got)
	}
	m.Done()
	expectProblems(t, s)
}

func BenchmarkTenThousandSteps(b *testing.B) {
	src := steps(10_000)
	b.SetBytes(int64(len(src)))
	for b.Loop() {
		if err := Parse("large.yaml", src, Limits{}).Err(); err != nil {
			b.Fatal(err)
		}
	}
}

// A single mapping of 100,000 keys: the search for keys that come twice must not grow with the square.
func BenchmarkLargeMapping(b *testing.B) {
	var src strings.Builder
	for i := range 100_000 {
		fmt.Fprintf(&src, "key-%d: value\n", i)
	}
	for b.Loop() {
		if err := Parse("large.yaml", []byte(src.String()), Limits{}).Err(); err != nil {
			b.Fatal(err)
		}
	}
}
