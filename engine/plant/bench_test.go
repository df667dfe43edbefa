package plant_test

import (
	"sync"
	"testing"

	"faultwalk/engine/plant"
	"faultwalk/trees"
)

// loaded is the embedded set, and models are its plants: neither changes.
var loaded = sync.OnceValues(trees.Embedded)

func embedded(tb testing.TB) *trees.Set {
	tb.Helper()
	set, problems := loaded()
	if len(problems) > 0 {
		tb.Fatal(problems.Format(5))
	}
	return set
}

func models(tb testing.TB) []*plant.Model {
	tb.Helper()
	set := embedded(tb)
	var out []*plant.Model
	for _, id := range []string{"millrace-small", "millrace-large", "millrace-spur", "millrace-volt-free"} {
		p, problems := set.Compose(id)
		if len(problems) > 0 {
			tb.Fatal(problems.Format(5))
		}
		m, problems := plant.Compile(set, p)
		if len(problems) > 0 {
			tb.Fatal(problems.Format(20))
		}
		out = append(out, m)
	}
	return out
}

// BenchmarkEveryFaultSettled makes every plant with every fault and lets it live
// through its history.
func BenchmarkEveryFaultSettled(b *testing.B) {
	all := models(b)
	n := 0
	for b.Loop() {
		n = 0
		for _, m := range all {
			s := m.New(nil, nil)
			for _, f := range m.Faults() {
				s.Be(f, nil)
				n++
			}
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*n), "µs/fault")
	b.ReportMetric(float64(n), "faults")
}

func BenchmarkCompile(b *testing.B) {
	set := embedded(b)
	p, _ := set.Compose("millrace-large")
	for b.Loop() {
		plant.Compile(set, p)
	}
}
