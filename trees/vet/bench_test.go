package vet_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/vet"
)

// longTree is a symptom of that many steps, one after another, of three
// branches each, in which no two conditions are the same.
func longTree(steps int) fstest.MapFS {
	var b strings.Builder
	b.WriteString("symptom: long\nsign: a long one\nwords: [long]\ncleared: cylinder-warms\nstart: s0\nsteps:\n")
	for i := range steps {
		lo := float64(i%9000) + float64(i/9000)/10
		next := fmt.Sprintf("go: s%d", i+1)
		if i == steps-1 {
			next = "refer: not-found"
		}
		fmt.Fprintf(&b, `  - id: s%d
    check: pair-apart from pair-a to pair-b
    branches:
      - if: reading < %g
        meaning: short of it
        %s
      - if: reading >= %g and reading < %g
        meaning: about right
        refer: not-found
      - if: reading >= %g
        meaning: beyond it
        refer: intermittent
`, i, lo+1, next, lo+1, lo+20000, lo+20000)
	}
	return fstest.MapFS{"symptoms/long.yaml": {Data: []byte(b.String())}}
}

func overlaid(b testing.TB, fsys fstest.MapFS) *trees.Set {
	b.Helper()
	base, problems := trees.Embedded()
	if err := problems.Err(); err != nil {
		b.Fatal(err)
	}
	set, problems := trees.Overlay(base, fsys, "own")
	if err := problems.Err(); err != nil {
		b.Fatal(err)
	}
	return set
}

// One operation reads, binds to three plants and proves a tree of 10,000 steps
// in which no two conditions are the same, with the embedded trees beside it.
func BenchmarkTenThousandSteps(b *testing.B) { benchmarkLong(b, 10_000) }

// A tenth of the steps must take about a tenth of the time.
func BenchmarkThousandSteps(b *testing.B) { benchmarkLong(b, 1_000) }

func benchmarkLong(b *testing.B, steps int) {
	fsys := longTree(steps)
	b.ReportAllocs()
	for b.Loop() {
		r := vet.Vet(overlaid(b, fsys), measurements.DefaultKit(), nil)
		if !r.Clean() || r.Steps < 3*steps {
			b.Fatal(r.Text(5))
		}
	}
}

// One operation is the vetting of the embedded trees, read already.
func BenchmarkEmbedded(b *testing.B) {
	set, problems := trees.Embedded()
	if err := problems.Err(); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		vet.Vet(set, measurements.DefaultKit(), nil)
	}
}

// The same for 10,000 steps of three readings each, with the rows that stop a job before their own branches.
func BenchmarkTenThousandTriples(b *testing.B) {
	steps := strings.Builder{}
	for i := range 10_000 {
		fmt.Fprintf(&steps, `  - id: s%d
    check: triple-at at permanent-live
    branches:
      - if: sound(ln) and le > %d.5 and ne < 50
        go: s%d
      - if: dead(ln) and le < %g
        refer: not-found
      - else: true
        refer: intermittent
`, i, i%200, i+1, float64(i%900)+float64(i/900)/20+1)
	}
	fsys := fstest.MapFS{"symptoms/long.yaml": {Data: []byte("symptom: long\nsign: a long one\nwords: [long]\ncleared: cylinder-warms\nstart: s0\nsteps:\n" +
		steps.String() + "  - id: s10000\n    check: cylinder-warms\n    branches:\n      - answer: [rises, stays]\n        refer: not-found\n")}}
	for b.Loop() {
		if r := vet.Vet(overlaid(b, fsys), measurements.DefaultKit(), nil); !r.Clean() {
			b.Fatal(r.Text(5))
		}
	}
}
