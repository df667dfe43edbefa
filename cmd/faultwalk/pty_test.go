//go:build unix

package main

import (
	"io"
	"os"
	"os/exec"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/hinshun/vt10x"
)

// screen is the program in a terminal of its own.
type screen struct {
	t    *testing.T
	tty  *os.File
	cmd  *exec.Cmd
	mu   sync.Mutex
	vt   vt10x.Terminal
	raw  strings.Builder
	gone chan struct{}
}

func onScreen(t *testing.T, columns, rows int, env []string, args ...string) *screen {
	t.Helper()
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(append(os.Environ(), asProgram+"=1", "TERM=xterm-256color", "NO_COLOR=", "XDG_CONFIG_HOME="+t.TempDir()), env...)
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: uint16(rows), Cols: uint16(columns)})
	if err != nil {
		t.Fatal(err)
	}
	s := &screen{t: t, tty: tty, cmd: cmd, vt: vt10x.New(vt10x.WithSize(columns, rows)), gone: make(chan struct{})}
	t.Cleanup(func() { cmd.Process.Kill(); <-s.gone; tty.Close() })
	go func() {
		defer close(s.gone)
		b := make([]byte, 4096)
		for {
			n, err := tty.Read(b)
			s.mu.Lock()
			s.raw.Write(b[:n])
			s.vt.Write(b[:n])
			s.mu.Unlock()
			if err != nil {
				return
			}
		}
	}()
	return s
}

func (s *screen) text() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.vt.String()
}

// wait waits for words on the screen, wherever lines break.
func (s *screen) wait(words string) {
	s.t.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		if strings.Contains(strings.Join(strings.Fields(s.text()), " "), words) {
			return
		}
	}
	s.t.Fatalf("%q never shows:\n%s", words, s.text())
}

// answer waits for a question, then types an answer to it.
func (s *screen) answer(question, typed string) {
	s.t.Helper()
	s.wait(question)
	io.WriteString(s.tty, typed+"\r")
}

func (s *screen) exit() int {
	s.t.Helper()
	<-s.gone
	s.cmd.Wait()
	return s.cmd.ProcessState.ExitCode()
}

// intake answers the first questions up to the tree, as an engineer.
func (s *screen) intake() {
	s.t.Helper()
	for _, qa := range [][2]string{
		{"in danger now?", "none"}, {"Who is using this?", "here"}, {"Whose hands touch", "electrical"}, {"Which certificates", "unvented"},
		{"Which instruments", "all"}, {"proving unit there", "yes"}, {"last calibrated", "not known"}, {"know what will be off", "yes"},
		{"one piece", "monobloc"}, {"rooms want heat", "controller"}, {"feeds the control board", "unit"}, {"What changed lately?", "nothing"},
	} {
		s.answer(qa[0], qa[1])
	}
}

func TestACalloutInATerminalReadsAndSavesOnInterrupt(t *testing.T) {
	t.Parallel()
	for _, columns := range []int{80, 40} {
		s := onScreen(t, columns, 40, nil, "callout", "--plant", "millrace-small", "--symptom", "cylinder-stays-cold", "--jobs", t.TempDir())
		s.intake()
		s.answer("controller's screen do?", "lit")
		s.wait("Do the settings ask for hot water now?")
		if got := s.text(); strings.Count(strings.Join(strings.Fields(got), " "), "Do the settings ask for hot water now?") != 1 {
			t.Errorf("at %d columns the question stands twice:\n%s", columns, got)
		}
		io.WriteString(s.tty, "\x03")
		s.wait("Go on with: faultwalk resume")
		if code := s.exit(); code != 130 {
			t.Errorf("at %d columns an interrupt ends with %d", columns, code)
		}
	}
}

func TestNoColourIsNoColour(t *testing.T) {
	t.Parallel()
	s := onScreen(t, 80, 40, []string{"NO_COLOR=1"}, "callout", "--jobs", t.TempDir())
	s.answer("in danger now?", "none")
	s.wait("Who is using this?")
	s.mu.Lock()
	raw := s.raw.String()
	s.mu.Unlock()
	for _, code := range []string{"\x1b[31m", "\x1b[32m", "\x1b[36m", "\x1b[1m"} {
		if strings.Contains(raw, code) {
			t.Errorf("the screen is painted with %q", code)
		}
	}
}

func TestALostTerminalLosesNothing(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	s := onScreen(t, 80, 40, nil, "callout", "--plant", "millrace-small", "--symptom", "cylinder-stays-cold", "--jobs", dir)
	s.intake()
	s.answer("controller's screen do?", "lit")
	s.wait("Do the settings ask for hot water now?")
	s.cmd.Process.Signal(syscall.SIGHUP) // what the system sends when a terminal is lost
	s.exit()
	events, id := journalOf(t, dir)
	if id == "" || events < 16 {
		t.Errorf("%d events of job %q are kept", events, id)
	}
}
