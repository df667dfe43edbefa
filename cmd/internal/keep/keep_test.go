package keep

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"faultwalk/engine/journal"
)

// evening is an invented callout's.
var evening = time.Date(2026, 11, 25, 18, 0, 0, 0, time.UTC)

func opened(id, trees string) journal.Event {
	return journal.Event{N: 1, At: evening, By: "the engineer", Kind: journal.KindOpened,
		Body: &journal.Opened{Format: journal.Format, Job: id, Build: "test", Jurisdiction: "gb", Trees: trees}}
}

func event(n int, body any) journal.Event {
	return journal.Event{N: n, At: evening.Add(time.Duration(n) * time.Minute), By: "the engineer", Kind: journal.KindOf(body), Body: body}
}

func note(n int, text string) journal.Event { return event(n, &journal.Noted{Text: text}) }

// create begins a job with notes after its first event.
func create(t testing.TB, s Store, set Set, notes ...string) *Job {
	t.Helper()
	job, err := s.Create(evening, set, func(id string) []journal.Event { return []journal.Event{opened(id, set.Hash)} })
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { job.Close() })
	for i, text := range notes {
		if err := job.Append(note(i+2, text)); err != nil {
			t.Fatal(err)
		}
	}
	return job
}

// closed is a closed store of one job with those notes.
func closed(t testing.TB, notes ...string) (s Store, id string) {
	t.Helper()
	s = Store{t.TempDir()}
	job := create(t, s, Set{}, notes...)
	if err := job.Close(); err != nil {
		t.Fatal(err)
	}
	return s, job.ID
}

func (s Store) bytes(t testing.TB, id string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(s.Dir, id+".jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func (s Store) put(t testing.TB, id string, data []byte) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(s.Dir, id+".jsonl"), data, 0o600); err != nil {
		t.Fatal(err)
	}
}

func notes(events []journal.Event) string {
	var all []string
	for _, e := range events {
		if b, ok := e.Body.(*journal.Noted); ok {
			all = append(all, b.Text)
		}
	}
	return strings.Join(all, " ")
}

func reopen(t *testing.T, s Store, id string) *Job {
	t.Helper()
	job, err := s.Open(id)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { job.Close() })
	return job
}

func TestAJobIsGoneOnWithWhereItStopped(t *testing.T) {
	t.Parallel()
	s, id := closed(t, "one", "two")
	job := reopen(t, s, id)
	if notes(job.Events) != "one two" || job.Mended != "" {
		t.Fatalf("opened with %q, mended %q", notes(job.Events), job.Mended)
	}
	if err := job.Append(note(4, "three"), note(5, "four")); err != nil {
		t.Fatal(err)
	}
	job.Close()
	if job = reopen(t, s, id); notes(job.Events) != "one two three four" {
		t.Errorf("opened again with %q", notes(job.Events))
	}
}

func TestCreateGivesBackWhatWasStored(t *testing.T) {
	t.Parallel()
	job := create(t, Store{t.TempDir()}, Set{})
	if len(job.Events) != 1 || job.Events[0].Body.(*journal.Opened).Job != job.ID || job.ID != "2026-11-25-1" {
		t.Errorf("job %s holds %v", job.ID, job.Events)
	}
}

func TestFilesAreThePersonsOwn(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" {
		t.Skip("Windows keeps rights otherwise")
	}
	s := Store{filepath.Join(t.TempDir(), "state", "faultwalk")}
	job := create(t, s, Set{"0a1b2c3d", []byte("trees")}, "one")
	job.Close()
	data := s.bytes(t, job.ID)
	s.put(t, job.ID, data[:len(data)-9])
	reopen(t, s, job.ID)
	found := 0
	err := filepath.WalkDir(filepath.Dir(s.Dir), func(path string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		want := os.FileMode(0o600)
		if d.IsDir() {
			want = 0o700
		}
		if found++; info.Mode().Perm() != want {
			t.Errorf("%s is %v, want %v", path, info.Mode().Perm(), want)
		}
		return err
	})
	if err != nil || found != 7 { // state, faultwalk, sets, journal, torn, pack, lock
		t.Errorf("looked at %d files and folders: %v", found, err)
	}
}

func TestAnEventOutOfTurnLeavesTheJournalAsItWas(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	job := create(t, s, Set{}, "one")
	before := s.bytes(t, job.ID)
	if err := job.Append(note(3, "two"), note(5, "four")); err == nil || !strings.Contains(err.Error(), "job 2026-11-25-1: event 5 out of turn; expected event 4") {
		t.Errorf("got %v", err)
	}
	if !bytes.Equal(before, s.bytes(t, job.ID)) {
		t.Error("half of what was refused is stored")
	}
	if err := job.Append(note(3, "two")); err != nil {
		t.Errorf("afterwards: %v", err)
	}
}

func TestNamesThatAreNoJobsAreRefused(t *testing.T) {
	t.Parallel()
	s, _ := closed(t)
	for _, id := range []string{"", "..", "../2026-11-25-1", "2026-11-25", "2026-11-25-0", "2026-11-25-1.torn", "2026-11-25-1/x", "2026-11-25-1\n", strings.Repeat("9", 500)} {
		_, err := s.Open(id)
		_, _, err2 := s.Read(id)
		_, err3 := s.Forget(id)
		for _, err := range []error{err, err2, err3} {
			if err == nil || !strings.Contains(err.Error(), "there is no such job; expected a date and a number, such as 2026-11-25-1") || len(err.Error()) > 200 {
				t.Errorf("%q: %v", id, err)
			}
		}
	}
}
