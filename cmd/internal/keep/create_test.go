package keep

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"faultwalk/engine/journal"
)

func TestIdsAreCountedThroughTheDay(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	for _, left := range []string{"2026-11-25-9.jsonl", "2026-11-25-11.torn", "2026-11-24-40.jsonl", "2026-11-25-x.jsonl", "2026-11-25-1 copy.jsonl"} {
		if err := os.WriteFile(filepath.Join(s.Dir, left), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if job := create(t, s, Set{}); job.ID != "2026-11-25-12" {
		t.Errorf("the next job is %s", job.ID)
	}
}

func TestJobsBegunAtOnceHaveIdsOfTheirOwn(t *testing.T) {
	t.Parallel()
	s := Store{filepath.Join(t.TempDir(), "new")}
	const many = 24
	ids := make(chan string, many)
	var all sync.WaitGroup
	for range many {
		all.Go(func() {
			job, err := s.Create(evening, Set{"0a1b2c3d", []byte("trees")}, func(id string) []journal.Event { return []journal.Event{opened(id, "")} })
			if err != nil {
				t.Error(err)
				return
			}
			defer job.Close()
			ids <- job.ID
		})
	}
	all.Wait()
	close(ids)
	seen := map[string]bool{}
	for id := range ids {
		seen[id] = true
	}
	if len(seen) != many || !seen["2026-11-25-1"] || !seen["2026-11-25-24"] {
		t.Errorf("%d ids: %v", len(seen), seen)
	}
}

// The lock of the folder is only the first guard: on a file system without
// locks the making of the file decides.
func TestTheSameIdIsGivenOnceWithoutTheLock(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	ids := make(chan string, 24)
	var all sync.WaitGroup
	for range cap(ids) {
		all.Go(func() {
			f, id, err := s.reserve(evening.Format(time.DateOnly))
			if err != nil {
				t.Error(err)
				return
			}
			f.Close()
			ids <- id
		})
	}
	all.Wait()
	close(ids)
	seen := map[string]bool{}
	for id := range ids {
		if seen[id] {
			t.Errorf("%s was given twice", id)
		}
		seen[id] = true
	}
}

func TestAJobThatCannotBeginLeavesNothing(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	for name, first := range map[string]func(string) []journal.Event{
		"no event":  func(string) []journal.Event { return nil },
		"bad event": func(id string) []journal.Event { return []journal.Event{note(1, "not opened")} },
	} {
		if _, err := s.Create(evening, Set{}, first); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if jobs, err := s.List(); err != nil || len(jobs) != 0 {
		t.Errorf("left %v, %v", jobs, err)
	}
}

func TestAFileInThePlaceOfTheFolderIsSaid(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "state")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{file, filepath.Join(file, "faultwalk")} {
		_, err := Store{dir}.Create(evening, Set{}, func(id string) []journal.Event { return []journal.Event{opened(id, "")} })
		if err == nil || !strings.Contains(err.Error(), "cannot make the folder "+file) {
			t.Errorf("%s: %v", dir, err)
		}
	}
}

func TestAFolderWithoutPermissionIsSaid(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" || os.Geteuid() == 0 {
		t.Skip("root and Windows write to folders that are not writable")
	}
	s, id := closed(t, "one")
	if err := os.Chmod(s.Dir, 0o500); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(s.Dir, 0o700) })
	_, err := s.Create(evening, Set{}, func(id string) []journal.Event { return []journal.Event{opened(id, "")} })
	_, err2 := s.Forget(id)
	for _, err := range []error{err, err2} {
		if !errors.Is(err, fs.ErrPermission) || !strings.Contains(err.Error(), "this needs permission to write there") {
			t.Errorf("got %v", err)
		}
	}
}
