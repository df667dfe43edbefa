package keep

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// faulty is a disk that fails on order, after writing some bytes.
type faulty struct {
	disk
	write, sync, truncate error
	some                  int
}

func (f *faulty) WriteAt(p []byte, at int64) (int, error) {
	if f.write == nil {
		return f.disk.WriteAt(p, at)
	}
	n, _ := f.disk.WriteAt(p[:f.some], at)
	return n, f.write
}

func (f *faulty) Sync() error {
	if f.sync != nil {
		return f.sync
	}
	return f.disk.Sync()
}

func (f *faulty) Truncate(size int64) error {
	if f.truncate != nil {
		return f.truncate
	}
	return f.disk.Truncate(size)
}

func onFaulty(t *testing.T) (Store, *Job, *faulty) {
	s := Store{t.TempDir()}
	job := create(t, s, Set{}, "one")
	f := &faulty{disk: job.file, some: 25}
	job.file = f
	return s, job, f
}

func TestAFullDiskLosesNothingAndCanBeTriedAgain(t *testing.T) {
	t.Parallel()
	s, job, f := onFaulty(t)
	before := s.bytes(t, job.ID)
	f.write = &os.PathError{Op: "write", Path: "journal", Err: syscall.ENOSPC}
	err := job.Append(note(3, "two"))
	if !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "free some space, then try again; everything stored before is kept") || errors.Is(err, ErrBroken) {
		t.Fatalf("got %v", err)
	}
	if !bytes.Equal(before, s.bytes(t, job.ID)) {
		t.Fatal("a piece of the line is left in the journal")
	}
	f.write = nil
	if err := job.Append(note(3, "two")); err != nil {
		t.Fatal(err)
	}
	job.Close()
	if again := reopen(t, s, job.ID); notes(again.Events) != "one two" || again.Mended != "" {
		t.Errorf("holds %q, mended %q", notes(again.Events), again.Mended)
	}
}

// A system that failed to write once says at the next sync that all is well.
func TestAFailedSyncIsNotTriedAgain(t *testing.T) {
	t.Parallel()
	s, job, f := onFaulty(t)
	f.sync = syscall.EIO
	if err := job.Append(note(3, "two")); !errors.Is(err, syscall.EIO) || !errors.Is(err, ErrBroken) {
		t.Fatalf("got %v", err)
	}
	f.sync = nil
	if err := job.Append(note(3, "two")); !errors.Is(err, ErrBroken) {
		t.Errorf("the next answer gives %v", err)
	}
	job.Close()
	again := reopen(t, s, job.ID)
	if notes(again.Events) != "one" {
		t.Errorf("holds %q", notes(again.Events))
	}
	if err := again.Append(note(3, "two")); err != nil {
		t.Error(err)
	}
}

func TestALineThatCannotBeTakenBackStopsTheJob(t *testing.T) {
	t.Parallel()
	s, job, f := onFaulty(t)
	f.write, f.truncate = syscall.ENOSPC, syscall.EIO
	if err := job.Append(note(3, "two")); !errors.Is(err, ErrBroken) {
		t.Fatalf("got %v", err)
	}
	f.write, f.truncate = nil, nil
	if err := job.Append(note(3, "two")); !errors.Is(err, ErrBroken) {
		t.Errorf("the next answer gives %v", err)
	}
	job.Close()
	if again := reopen(t, s, job.ID); notes(again.Events) != "one" || !strings.Contains(again.Mended, "its 25 bytes are cut off") {
		t.Errorf("holds %q, mended %q", notes(again.Events), again.Mended)
	}
}

func TestAJournalChangedByAnotherProgramIsNotWrittenTo(t *testing.T) {
	t.Parallel()
	for name, change := range map[string]func(path string, data []byte) error{
		"grown":    func(path string, data []byte) error { return os.WriteFile(path, append(data, "x"...), 0o600) },
		"replaced": func(path string, data []byte) error { os.Remove(path); return os.WriteFile(path, data, 0o600) },
		"removed":  func(path string, _ []byte) error { return os.Remove(path) },
		"moved":    func(path string, _ []byte) error { return os.Rename(path, path+".old") },
	} {
		s := Store{t.TempDir()}
		job := create(t, s, Set{}, "one")
		path := filepath.Join(s.Dir, job.ID+".jsonl")
		if err := change(path, s.bytes(t, job.ID)); err != nil {
			t.Skipf("this system does not let an open file be %s: %v", name, err)
		}
		err := job.Append(note(3, "two"))
		if err == nil || !strings.Contains(err.Error(), "cannot store the answer in "+path) {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

func TestAClosedJobTakesNothing(t *testing.T) {
	t.Parallel()
	job := create(t, Store{t.TempDir()}, Set{})
	job.Close()
	if err := job.Append(note(2, "one")); !errors.Is(err, ErrBroken) || !strings.Contains(err.Error(), "is closed") {
		t.Errorf("got %v", err)
	}
}

// ordered notes what is asked of the disk.
type ordered struct {
	disk
	asked string
}

func (o *ordered) WriteAt(p []byte, at int64) (int, error) {
	o.asked += "write "
	return o.disk.WriteAt(p, at)
}

func (o *ordered) Sync() error {
	o.asked += "sync "
	return o.disk.Sync()
}

// A killed process cannot show this: what it wrote outlives it unsynced.
func TestEachAnswerIsSyncedBeforeAppendReturns(t *testing.T) {
	t.Parallel()
	job := create(t, Store{t.TempDir()}, Set{})
	o := &ordered{disk: job.file}
	job.file = o
	for n := 2; n <= 4; n += 2 {
		if err := job.Append(note(n, "one"), note(n+1, "two")); err != nil {
			t.Fatal(err)
		}
	}
	if o.asked != "write sync write sync " {
		t.Errorf("two answers of two events: %s", o.asked)
	}
}
