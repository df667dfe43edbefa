package rehearse

import (
	"fmt"
	"hash/fnv"
	"testing"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// scattered is a plant whose faults answer every check by chance, always alike:
// walks go everywhere.
type scattered struct {
	fake
}

func (m *scattered) subject(f *fault, draw *uint64) subject {
	id := ""
	if f != nil {
		id = f.id
	}
	return &scatteredSubject{fakeSubject{&m.fake, id, map[string]bool{}, false}}
}

type scatteredSubject struct{ fakeSubject }

func (s *scatteredSubject) answer(c *trees.BoundCheck, specs []measurements.ModeSpec, st standing) (answered, error) {
	h := fnv.New32a()
	h.Write([]byte(s.id + c.ID))
	n := h.Sum32()
	a := answered{values: make([]float64, len(c.Probes))}
	for i := range a.values {
		a.values[i] = []float64{231, 0, 120, 231}[(n>>(8*i))%4]
	}
	if len(c.Answers) > 0 {
		a.answer = c.Answers[0].ID // mostly what the author thought of first
		if n%3 == 0 {
			a.answer = c.Answers[n/3%uint32(len(c.Answers))].ID
		}
	}
	return a, nil
}

func scatter(faults int) *scattered {
	m := &scattered{fake{shown: map[string][]string{}}}
	for i := range faults {
		f := broke(fmt.Sprint("fault ", i), 1, "", "")
		m.all = append(m.all, f)
		m.shown[f.id] = []string{"controller-blank", "no-heat-demand", "cylinder-stays-cold"}
	}
	return m
}

// BenchmarkWalking is what the walks themselves take, the simulation apart:
// three plants, 120 faults each, three trees. The whole is to stay below 1 s.
func BenchmarkWalking(b *testing.B) {
	set := embedded(b)
	signs := []*trees.Sign{sign("controller-blank"), sign("no-heat-demand"), sign("cylinder-stays-cold")}
	for b.Loop() {
		m := scatter(120)
		r, err := run(set, Options{}, func(*trees.Set, *trees.Plant) (model, error) { return m, nil }, signs)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(r.Cases)), "walks")
	}
}

// BenchmarkRehearsal is every tree against every fault on every plant, the
// model included: to stay below 1 s and 100 MB on two cores.
func BenchmarkRehearsal(b *testing.B) {
	set := embedded(b)
	for b.Loop() {
		r, err := Run(set, Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(r.Cases)), "walks")
		b.ReportMetric(float64(r.Faults), "faults")
	}
}

// BenchmarkNoise is the same with 20 draws, on the smallest plant alone: all
// four are to stay below 10 s.
func BenchmarkNoise(b *testing.B) {
	set := embedded(b)
	for b.Loop() {
		r, err := Run(set, Options{Plants: []string{"millrace-small"}, Noise: 20, Seed: 1})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(r.Cases)), "walks")
	}
}
