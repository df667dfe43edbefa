package keep

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"faultwalk/engine/journal"
)

func TestJobsAreListedNewestFirstWithHowTheyStand(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	events := func(id string, bodies ...any) []journal.Event {
		all := []journal.Event{opened(id, "")}
		for i, b := range bodies {
			all = append(all, event(i+2, b))
		}
		return all
	}
	store := func(bodies ...any) string {
		job, err := s.Create(evening, Set{}, func(id string) []journal.Event { return events(id, bodies...) })
		if err != nil {
			t.Fatal(err)
		}
		job.Close()
		return job.ID
	}
	plant := func(id string) any { return &journal.Answered{Ask: "plant", Choice: id} }
	store(plant("millrace-large"), &journal.Answered{Ask: "symptom", Choice: "cylinder-stays-cold"}, &journal.Retracted{Event: 2}, plant("millrace-small"))
	store(plant("millrace-small"), &journal.Closed{As: journal.Proven})
	torn, damaged, later, empty := store(&journal.Noted{Text: "x"}), store(&journal.Noted{Text: "x"}), store(), store()
	s.put(t, torn, append(s.bytes(t, torn), `{"n":3,"at":"2026`...))
	s.put(t, damaged, []byte(strings.Replace(string(s.bytes(t, damaged)), `"x"`, `"y"`, 1)))
	s.put(t, later, []byte(strings.Replace(string(s.bytes(t, later)), `"format":1`, `"format":9`, 1)))
	s.put(t, empty, nil)
	for range 4 { // two digits come after one
		store()
	}
	os.WriteFile(filepath.Join(s.Dir, "notes.txt"), nil, 0o600)

	got, err := s.List()
	if err != nil || len(got) != 10 || got[0].ID != "2026-11-25-10" {
		t.Fatalf("%d jobs: %v, %v", len(got), got, err)
	}
	at := func(n int) Summary { return got[len(got)-n] }
	event2 := event(2, &journal.Noted{}).At
	want := []Summary{
		{ID: "2026-11-25-1", State: StateOpen, Started: evening, Last: event(5, &journal.Noted{}).At, Events: 5, Plant: "millrace-small", Symptom: "cylinder-stays-cold"},
		{ID: "2026-11-25-2", State: StateClosed, As: journal.Proven, Started: evening, Last: event(3, &journal.Noted{}).At, Events: 3, Plant: "millrace-small"},
		{ID: "2026-11-25-3", State: StateOpen, Started: evening, Last: event2, Events: 2},
		{ID: "2026-11-25-4", State: StateDamaged, Started: evening, Last: evening, Events: 1, Why: "line 2: the sum does not fit; this line was altered, or lines before it were taken out, put in or moved"},
		{ID: "2026-11-25-5", State: StateLater, Why: "line 1: written by a later version of faultwalk: the journal has format 9, this build knows format 1"},
		{ID: "2026-11-25-6", State: StateDamaged, Why: "line 1: nothing was recorded: the job was never begun"},
	}
	for i, w := range want {
		if diff := cmp.Diff(w, at(i+1)); diff != "" {
			t.Error(diff)
		}
	}
}

func TestNoFolderHoldsNoJobs(t *testing.T) {
	t.Parallel()
	if jobs, err := (Store{filepath.Join(t.TempDir(), "none")}).List(); err != nil || len(jobs) != 0 {
		t.Errorf("got %v, %v", jobs, err)
	}
}

func files(t *testing.T, s Store) []string {
	t.Helper()
	var all []string
	filepath.WalkDir(s.Dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() && d.Name() != ".lock" {
			all = append(all, d.Name())
		}
		return err
	})
	slices.Sort(all)
	return all
}

func TestForgetRemovesAllThatIsTheJobsAlone(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	shared, own := Set{"aaaaaaaa", []byte("a")}, Set{"bbbbbbbb", []byte("b")}
	one, two := create(t, s, shared, "one"), create(t, s, shared, "one")
	resumed := event(3, &journal.Resumed{Build: "test", Trees: own.Hash})
	if err := two.Move(own, resumed); err != nil {
		t.Fatal(err)
	}
	one.Close()
	two.Close()
	s.put(t, two.ID, append(s.bytes(t, two.ID), `{"n":4,"at":"2026`...))
	reopen(t, s, two.ID).Close()
	if got := files(t, s); len(got) != 5 {
		t.Fatalf("before: %v", got)
	}

	removed, err := s.Forget(two.ID)
	path := func(parts ...string) string { return filepath.Join(append([]string{s.Dir}, parts...)...) }
	want := []string{path("2026-11-25-2.torn"), path("2026-11-25-2.jsonl"), path("sets", "bbbbbbbb.pack")}
	if diff := cmp.Diff(want, removed); err != nil || diff != "" {
		t.Errorf("%v\n%s", err, diff)
	}
	if diff := cmp.Diff([]string{"2026-11-25-1.jsonl", "aaaaaaaa.pack"}, files(t, s)); diff != "" {
		t.Error(diff)
	}
	if _, err := s.Forget(one.ID); err != nil || len(files(t, s)) != 0 {
		t.Errorf("the last: %v, left %v", err, files(t, s))
	}
}

func TestForgetKeepsASetThatAnUnreadableJobMayUse(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	set := Set{"aaaaaaaa", []byte("a")}
	one, two := create(t, s, set), create(t, s, set)
	one.Close()
	two.Close()
	s.put(t, two.ID, []byte("garbled\n"))
	if removed, err := s.Forget(one.ID); err != nil || len(removed) != 1 {
		t.Errorf("removed %v, %v", removed, err)
	}
	if removed, err := s.Forget(two.ID); err != nil || len(removed) != 1 {
		t.Errorf("a damaged job: removed %v, %v", removed, err)
	}
}

func TestASetIsKeptOnceAndGivenBack(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	set := Set{"0a1b2c3d", []byte("content")}
	create(t, s, set)
	create(t, s, Set{set.Hash, []byte("other content")})
	if pack, err := s.Set(set.Hash); err != nil || string(pack) != "content" {
		t.Errorf("got %q, %v", pack, err)
	}
	if _, err := s.Set("ffffffff"); err == nil || !strings.Contains(err.Error(), "read the trees the job was begun on") {
		t.Errorf("a set that is not there: %v", err)
	}
	for _, hash := range []string{"", "../../etc/passwd", "0A1B2C3D", "0a1b"} {
		if _, err := s.Set(hash); err == nil || !strings.Contains(err.Error(), "no hash of a tree set") {
			t.Errorf("%q: %v", hash, err)
		}
	}
}
