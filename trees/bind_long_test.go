package trees

import (
	"fmt"
	"strings"
	"testing"
)

// longTree is a symptom of that many steps one after another.
func longTree(steps int) string {
	parts := []string{"valve", "limit", "output"}
	var b strings.Builder
	b.WriteString("symptom: long\nsign: a long one\nwords: [long]\ncleared: warms\nstart: s0\nsteps:\n")
	for i := range steps {
		next := fmt.Sprintf("go: s%d", i+1)
		if i == steps-1 {
			next = "refer: watch"
		}
		fmt.Fprintf(&b, "  - id: s%d\n    check: warms\n    branches:\n      - answer: rises\n        %s\n      - answer: stays\n        cause: valve-stuck of %s\n", i, next, parts[i%len(parts)])
	}
	return b.String()
}

// Ten thousand steps one behind the other bind, and every cause behind them is
// found, without a stack or a memory that grows with their square.
func TestALongTreeBindsAndListsItsCauses(t *testing.T) {
	t.Parallel()
	set, problems := Overlay(baseSet(t), filesOf("symptoms/long.yaml", longTree(10_000)), "own")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	p, problems := set.Compose("one")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	g, problems := set.Bind("long", p)
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if got := len(g.Causes(g.Start)); len(g.Steps) != 10_000 || got != 3 {
		t.Errorf("%d steps and %d causes; want 10000 and 3", len(g.Steps), got)
	}
}

func TestCausesComeInTheOrderOfTheTreeEachOnce(t *testing.T) {
	t.Parallel()
	a, b, c := &BoundCause{ID: "a"}, &BoundCause{ID: "b"}, &BoundCause{ID: "c"}
	g := &Graph{Start: Target{Go: "one"}, Steps: map[string]*Bound{
		"one":   {Branches: []*BoundBranch{{To: Target{Go: "two"}}, {To: Target{Causes: []*BoundCause{c}}}, {To: Target{Go: "three"}}}},
		"two":   {Branches: []*BoundBranch{{To: Target{Go: "three"}}, {To: Target{Causes: []*BoundCause{b, a}}}}},
		"three": {Branches: []*BoundBranch{{To: Target{Causes: []*BoundCause{a}}}}, Otherwise: Target{Causes: []*BoundCause{c}}},
	}}
	var ids string
	for _, x := range g.Causes(g.Start) {
		ids += x.ID
	}
	if ids != "acb" {
		t.Errorf("the causes come as %q; want acb", ids)
	}
	if got := g.Causes(Target{Causes: []*BoundCause{b}}); len(got) != 1 || got[0] != b {
		t.Errorf("a target of one cause gives %v", got)
	}
}

// One operation binds a tree of 10,000 steps to a plant.
func BenchmarkBindTenThousandSteps(b *testing.B) {
	set, problems := Overlay(baseSet(b), filesOf("symptoms/long.yaml", longTree(10_000)), "own")
	if err := problems.Err(); err != nil {
		b.Fatal(err)
	}
	p, _ := set.Compose("one")
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := set.Bind("long", p); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}
