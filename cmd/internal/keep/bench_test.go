package keep

import (
	"slices"
	"testing"
	"time"

	"faultwalk/engine/journal"
)

// An answer stored and synced, on the disk of the folder for temporary files.
func BenchmarkAppendSynced(b *testing.B) {
	job := create(b, Store{b.TempDir()}, Set{})
	var took []time.Duration
	n := 2
	for b.Loop() {
		e := scripted(job.ID, n)
		begin := time.Now()
		if err := job.Append(e); err != nil {
			b.Fatal(err)
		}
		took = append(took, time.Since(begin))
		n++
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)/2].Microseconds()), "p50-µs")
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds()), "p99-µs")
}

// Taking up a callout of 150 events.
func BenchmarkOpen(b *testing.B) {
	s := Store{b.TempDir()}
	job := create(b, s, Set{})
	var events []journal.Event
	for n := 2; n <= 150; n++ {
		events = append(events, scripted(job.ID, n))
	}
	if err := job.Append(events...); err != nil {
		b.Fatal(err)
	}
	job.Close()
	for b.Loop() {
		job, err := s.Open(job.ID)
		if err != nil {
			b.Fatal(err)
		}
		job.Close()
	}
}
