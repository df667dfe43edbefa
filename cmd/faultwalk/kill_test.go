//go:build unix

package main

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"faultwalk/cmd/internal/keep"
)

// A job killed at any moment keeps every answer whose next question was shown,
// and can be resumed. FAULTWALK_KILLS sets how often; the long run is
//
//	FAULTWALK_KILLS=1000 go test -count=1 -timeout 30m -run Killed ./cmd/faultwalk
func TestAKilledJobLosesNoAcknowledgedAnswer(t *testing.T) {
	t.Parallel()
	kills := 8
	if n, err := strconv.Atoi(os.Getenv("FAULTWALK_KILLS")); err == nil {
		kills = n
	}
	answers := scripted(t)
	stored := acknowledged(t, answers)
	r := rand.New(rand.NewPCG(1, 2))
	for i := range kills {
		dir := t.TempDir()
		after := 1 + r.IntN(len(answers)-1)
		acked := killedAfter(t, dir, answers, after, time.Duration(r.IntN(4000))*time.Microsecond)
		events, id := journalOf(t, dir)
		if acked > 0 && events < stored[acked] {
			t.Fatalf("kill %d after %d answers: %d events are kept, %d were acknowledged", i, acked, events, stored[acked])
		}
		if id != "" {
			resumes(t, dir, id)
		}
	}
}

// session is the program with a pipe at each end.
type session struct {
	cmd  *exec.Cmd
	in   io.WriteCloser
	out  chan byte
	seen bytes.Buffer
}

func start(t *testing.T, dir string, args ...string) *session {
	t.Helper()
	cmd := exec.Command(os.Args[0], append(args, "--jobs", dir)...)
	cmd.Env = append(os.Environ(), asProgram+"=1", "XDG_CONFIG_HOME="+dir)
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stderr = os.Stderr
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	s := &session{cmd: cmd, in: in, out: make(chan byte, 1<<16)}
	go func() {
		defer close(s.out)
		b := make([]byte, 4096)
		for {
			n, err := out.Read(b)
			for _, c := range b[:n] {
				s.out <- c
			}
			if err != nil {
				return
			}
		}
	}()
	return s
}

// prompted waits until a question stands: text that ends like a prompt, and
// nothing behind it. False when the program ended first.
func (s *session) prompted() bool {
	for {
		c, open := <-s.out
		if !open {
			return false
		}
		s.seen.WriteByte(c)
		if len(s.out) > 0 {
			continue
		}
		for _, end := range []string{": ", "> ", "? "} {
			if bytes.HasSuffix(s.seen.Bytes(), []byte(end)) {
				return true
			}
		}
	}
}

// acknowledged gives, for each number of answers whose next question was shown,
// how many events the journal held by then at the least.
func acknowledged(t *testing.T, answers []string) []int {
	t.Helper()
	dir := t.TempDir()
	s := start(t, dir, "callout")
	stored := []int{0}
	for i, a := range answers {
		if !s.prompted() {
			t.Fatalf("the program ended before answer %d (%s):\n%s", i, a, s.seen.String())
		}
		if n, _ := journalOf(t, dir); i > 0 {
			stored = append(stored, n)
		}
		fmt.Fprintln(s.in, a)
	}
	s.in.Close()
	for range s.out {
	}
	if err := s.cmd.Wait(); err != nil {
		t.Fatalf("the scripted job did not end well: %v\n%s", err, s.seen.String())
	}
	return stored
}

// killedAfter answers some questions, then kills the program a moment after the
// last answer was given. It returns how many answers were acknowledged.
func killedAfter(t *testing.T, dir string, answers []string, after int, moment time.Duration) (acked int) {
	t.Helper()
	s := start(t, dir, "callout")
	for i := range after {
		if !s.prompted() {
			t.Fatalf("the program ended at answer %d:\n%s", i, s.seen.String())
		}
		acked = i
		fmt.Fprintln(s.in, answers[i])
	}
	time.Sleep(moment)
	s.cmd.Process.Kill()
	for range s.out {
	}
	s.cmd.Wait()
	return acked
}

// journalOf reads the one job of a folder: how many whole events it holds.
func journalOf(t *testing.T, dir string) (events int, id string) {
	t.Helper()
	names, _ := filepath.Glob(filepath.Join(dir, "*.jsonl"))
	if len(names) == 0 {
		return 0, ""
	}
	id = strings.TrimSuffix(filepath.Base(names[0]), ".jsonl")
	kept, damage, err := keep.Store{Dir: dir}.Read(id)
	if err != nil {
		t.Fatal(err)
	}
	if damage != nil && !damage.Torn {
		t.Fatalf("the journal is damaged: %v", damage)
	}
	return len(kept), id
}

// resumes takes the job up again and leaves it at once.
func resumes(t *testing.T, dir, id string) {
	t.Helper()
	s := start(t, dir, "resume", id)
	if !s.prompted() {
		s.cmd.Wait()
		if !strings.Contains(s.seen.String(), "closed") {
			t.Fatalf("job %s does not resume:\n%s", id, s.seen.String())
		}
		return
	}
	s.in.Close()
	for range s.out {
	}
	s.cmd.Wait()
}
