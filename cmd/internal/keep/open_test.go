package keep

import (
	"bytes"
	"errors"
	"os"
	"slices"
	"strings"
	"testing"
)

func TestATornLineIsCutOffAndKept(t *testing.T) {
	t.Parallel()
	s, id := closed(t, "one", "two")
	whole := s.bytes(t, id)
	torn := whole[bytes.LastIndexByte(whole[:len(whole)-1], '\n')+1 : len(whole)-20]
	s.put(t, id, whole[:len(whole)-20])
	job := reopen(t, s, id)
	if notes(job.Events) != "one" || !strings.Contains(job.Mended, "line 3 of job 2026-11-25-1 was never finished") {
		t.Errorf("opened with %q, mended %q", notes(job.Events), job.Mended)
	}
	if err := job.Append(note(3, "two again")); err != nil {
		t.Fatal(err)
	}
	job.Close()
	if job := reopen(t, s, id); notes(job.Events) != "one two again" || job.Mended != "" {
		t.Errorf("opened again with %q, mended %q", notes(job.Events), job.Mended)
	}
	if kept, err := os.ReadFile(s.tornPath(id)); err != nil || string(kept) != string(torn)+"\n" {
		t.Errorf("kept %q (%v), want %q", kept, err, torn)
	}
}

func TestWhatWasTornEarlierIsKeptToo(t *testing.T) {
	t.Parallel()
	s, id := closed(t, "one")
	whole := s.bytes(t, id)
	for _, torn := range []string{`{"n":3,"at":"a`, `{"n":3,"at":"b`} {
		s.put(t, id, append(slices.Clone(whole), torn...))
		reopen(t, s, id).Close()
	}
	if kept, _ := os.ReadFile(s.tornPath(id)); string(kept) != "{\"n\":3,\"at\":\"a\n{\"n\":3,\"at\":\"b\n" {
		t.Errorf("kept %q", kept)
	}
}

// Whichever byte the power fails at, what was whole is there and the job goes on.
func TestAJobCutAnywhereGoesOn(t *testing.T) {
	t.Parallel()
	s, id := closed(t, "one", "two", "three")
	whole := s.bytes(t, id)
	first := bytes.IndexByte(whole, '\n') + 1
	for cut := first; cut <= len(whole); cut++ {
		s.put(t, id, whole[:cut])
		job := reopen(t, s, id)
		want := bytes.Count(whole[:cut], []byte("\n"))
		if cut < len(whole) && whole[cut] == '\n' {
			want++ // only its ending was missing
		}
		if len(job.Events) != want {
			t.Fatalf("cut at %d: %d events, want %d", cut, len(job.Events), want)
		}
		if err := job.Append(note(want+1, "on")); err != nil {
			t.Fatalf("cut at %d: %v", cut, err)
		}
		job.Close()
		if events, damage, err := s.Read(id); err != nil || damage != nil || len(events) != want+1 {
			t.Fatalf("cut at %d and gone on with: %d events, %v, %v", cut, len(events), damage, err)
		}
	}
}

func TestADamagedJobIsRefusedAndLeftAsItIs(t *testing.T) {
	t.Parallel()
	s, id := closed(t, "one", "two", "three")
	whole := s.bytes(t, id)
	later := strings.Replace(string(whole[:bytes.IndexByte(whole, '\n')+1]), `"format":1`, `"format":2`, 1)
	for name, c := range map[string]struct {
		data string
		want string
		read string
	}{
		"altered":      {strings.Replace(string(whole), `"two"`, `"tow"`, 1), ".jsonl:3: the sum does not fit; this line was altered", "(2 events could be read)"},
		"garbled end":  {string(whole) + "\xff\xfe\x00", ".jsonl:5: this is no line of a journal", "(4 events could be read)"},
		"line removed": {strings.Replace(string(whole), string(bytes.SplitAfter(whole, []byte("\n"))[1]), "", 1), ".jsonl:2: found event 3; expected event 2", "(1 event could be read)"},
		"later":        {later, ".jsonl:1: written by a later version of faultwalk: the journal has format 2", "go on with a newer faultwalk"},
		"torn at once": {string(whole[:40]), ".jsonl:1: this is no line of a journal", "`faultwalk forget 2026-11-25-1` removes it"},
		"empty":        {"", ".jsonl:1: nothing was recorded", "(0 events could be read)"},
	} {
		s.put(t, id, []byte(c.data))
		job, err := s.Open(id)
		var refusal *Refusal
		if job != nil || !errors.As(err, &refusal) || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), c.read) {
			t.Errorf("%s: got %v, want %s … %s", name, err, c.want, c.read)
			continue
		}
		if refusal.Damage.Later != (name == "later") || len(refusal.Events) != refusal.Damage.Line-1 {
			t.Errorf("%s: %+v", name, refusal)
		}
		if string(s.bytes(t, id)) != c.data {
			t.Errorf("%s: the file was changed", name)
		}
		if _, err := os.Stat(s.tornPath(id)); err == nil {
			t.Errorf("%s: something was cut off", name)
		}
	}
}

func TestOneProcessHasAJob(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	job := create(t, s, Set{}, "one")
	if _, err := s.Open(job.ID); !errors.Is(err, ErrBusy) {
		t.Errorf("a second Open gives %v", err)
	}
	if _, err := s.Forget(job.ID); !errors.Is(err, ErrBusy) {
		t.Errorf("Forget gives %v", err)
	}
	if events, damage, err := s.Read(job.ID); err != nil || damage != nil || len(events) != 2 {
		t.Errorf("Read gives %d events, %v, %v", len(events), damage, err)
	}
	job.Close()
	reopen(t, s, job.ID)
}

func TestOpenOfNothingSaysSo(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	if _, err := s.Open("2026-11-25-7"); !errors.Is(err, ErrNoJob) || !strings.Contains(err.Error(), "faultwalk jobs") {
		t.Errorf("got %v", err)
	}
	if _, _, err := s.Read("2026-11-25-7"); !errors.Is(err, ErrNoJob) {
		t.Errorf("got %v", err)
	}
}
