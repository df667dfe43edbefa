package prove

import (
	"fmt"
	"testing"
)

func BenchmarkThreeBranches(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		p, _ := mustTable(b, single("ln < 10", "ln >= 10 and ln < 207", "ln >= 207"))
		if f := p.Findings(); f != nil {
			b.Fatal(f)
		}
	}
}

// triple is a set over three readings on scales of 7, 5 and 5 bands.
func triple() Set {
	high := []Band{{"dead", 5, false}, {"unproved", 216.2, false}, {"sound", 253, true}, {"beyond", 400, true}, {"high", ol, false}}
	s := Set{FirstTrue: true, Facts: []string{"moving"}, Variables: []Variable{volts("ln"),
		{Name: "le", Unit: "V", Max: ol, Bands: high}, {Name: "ne", Unit: "V", Max: ol, Bands: high}}}
	return s.with([]string{
		"moving(ln)",
		"sound(ln) and sound(le) and dead(ne)",
		"dead(ln) and sound(le) and sound(ne)",
		"dead(ln) and dead(le) and dead(ne)",
		"sound(ln) and dead(le) and sound(ne)",
		"(leaky(ln) or series(ln) or poor(ln)) and unproved(le)",
		"weak(ln) or high(ln) or high(le) or beyond(ne)",
		"else"})
}

func BenchmarkTriple(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		p, _ := mustTable(b, triple())
		p.Findings()
	}
}

func BenchmarkJudgeTriple(b *testing.B) {
	p, _ := mustTable(b, triple())
	box := []Interval{{229, 231}, {228, 232}, {0, 1}}
	b.ReportAllocs()
	for b.Loop() {
		p.Judge(box)
	}
}

// One operation is the proof of 10,000 steps of three branches whose conditions all differ.
func BenchmarkTenThousandSteps(b *testing.B) {
	for b.Loop() {
		prover := New()
		for i := range 10_000 {
			lo := float64(i) / 100
			p, _, err := prover.Table(single(fmt.Sprintf("ln < %v", lo), fmt.Sprintf("%v <= ln < %v", lo, lo+107), fmt.Sprintf("ln >= %v", lo+107)))
			if err != nil {
				b.Fatal(err)
			}
			p.Findings()
		}
	}
}
