//go:build unix

package main

import (
	"bytes"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"
)

// A rehearsal long enough to be interrupted in any case.
var endless = []string{"rehearse", "--plant", "millrace-small", "--noise", "100000"}

func TestCtrlCEndsARehearsalWithoutHalfALine(t *testing.T) {
	t.Parallel()
	s := onScreen(t, 40, 12, nil, endless...)
	s.wait("walking fault")
	if _, err := s.tty.Write([]byte{3}); err != nil {
		t.Fatal(err)
	}
	if code := s.exit(); code != 130 {
		t.Errorf("it ends with %d, expected 130", code)
	}
	if left := strings.TrimSpace(s.text()); left != "" {
		t.Errorf("the screen still shows %q", left)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if strings.Contains(s.raw.String(), "\x1b[") {
		t.Error("progress is coloured")
	}
}

func TestAnInterruptedRehearsalWritesNothingIntoAPipe(t *testing.T) {
	t.Parallel()
	for wait := 500 * time.Millisecond; ; wait *= 2 {
		code, out := interrupted(t, wait)
		if code == -1 && wait < 10*time.Second {
			continue // it did not catch signals yet
		}
		if code != 130 || out != "" {
			t.Errorf("it ends with %d and writes %q, expected 130 and nothing", code, out)
		}
		return
	}
}

// interrupted starts the endless rehearsal into a pipe and interrupts it.
func interrupted(t *testing.T, after time.Duration) (code int, out string) {
	t.Helper()
	cmd := exec.Command(os.Args[0], endless...)
	cmd.Env = append(os.Environ(), asProgram+"=1")
	var wrote bytes.Buffer
	cmd.Stdout, cmd.Stderr = &wrote, &wrote
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	time.Sleep(after)
	if err := cmd.Process.Signal(syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	cmd.Wait()
	return cmd.ProcessState.ExitCode(), wrote.String()
}
