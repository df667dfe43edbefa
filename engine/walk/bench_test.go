package walk_test

import (
	"slices"
	"testing"
	"time"

	"faultwalk/engine/walk"
)

// BenchmarkNextPrompt is what a person waits for between an answer and the next
// question, the sync apart: every turn of a job on the largest plant that is
// more than 150 events old, in ms; wanted are 10 at the 99th percentile.
func BenchmarkNextPrompt(b *testing.B) {
	p := deepJob(b)
	events := slices.Clone(p.job.Events())
	var took []time.Duration
	b.ResetTimer()
	for b.Loop() {
		b.StopTimer()
		p.job, _ = walk.Resume(p.lib, slices.Clone(events))
		p.job.Ask() // plant and graph are there
		b.StartTimer()
		for range 40 {
			a := p.job.Ask()
			if a.Kind == walk.Over {
				break
			}
			ans := p.answer(a)
			start := time.Now()
			out, err := p.job.Answer(ans, "test", morning)
			if err != nil {
				b.Fatalf("%+v: %v", ans, err)
			}
			p.job.Apply(out.Events...)
			p.job.Ask()
			took = append(took, time.Since(start))
		}
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)*99/100])/1e6, "p99-ms")
	b.ReportMetric(float64(took[len(took)/2])/1e6, "median-ms")
	b.ReportMetric(float64(len(events)), "events")
}

// deepJob is a job on the largest plant with its readings taken back and taken
// again until it is long.
func deepJob(tb testing.TB) *player {
	p := play(tb, with(engineer("millrace-large", "cylinder-stays-cold"), map[string]string{"tap-against-screen": "both-cold", "legs": "radiator-leg",
		"travel of diverter": "silent", "retest failed": "leave"}))
	p.until("driven at diverter-live calling hot-water")
	for len(p.job.Events()) < 150 {
		p.typed("231").command("back", "")
	}
	return p
}

// BenchmarkResume is what taking a job of 150 events up again costs, its plant
// composed and its tree bound anew.
func BenchmarkResume(b *testing.B) {
	p := deepJob(b)
	events := p.job.Events()
	for b.Loop() {
		job, _ := walk.Resume(p.lib, events)
		job.Ask()
	}
}

// BenchmarkBack is taking the last of 150 events back: what is known is derived
// from all of them again.
func BenchmarkBack(b *testing.B) {
	p := deepJob(b)
	events := p.typed("231").job.Events()
	for b.Loop() {
		b.StopTimer()
		job, _ := walk.Resume(p.lib, slices.Clone(events))
		job.Ask()
		b.StartTimer()
		out, err := job.Answer(walk.Answer{Command: "back"}, "test", morning)
		if err != nil {
			b.Fatal(err)
		}
		job.Apply(out.Events...)
		job.Ask()
	}
}
