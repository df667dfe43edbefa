//go:build unix

package terminal

import (
	"bytes"
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

// patience is how long a screen is waited for; a loaded machine needs some.
const patience = 20 * time.Second

// screenOf is a process on a pseudo-terminal and the screen it has painted.
type screenOf struct {
	t     *testing.T
	pty   *os.File
	cmd   *exec.Cmd
	lock  sync.Mutex
	vt    vt10x.Terminal
	raw   bytes.Buffer
	ended chan struct{}
}

func start(t *testing.T, name string, columns, rows int, env ...string) *screenOf {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append([]string{scene + "=" + name, "TERM=xterm-256color", "GORACE=exitcode=66 atexit_sleep_ms=0"}, env...)
	f, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: uint16(rows), Cols: uint16(columns)})
	if err != nil {
		t.Fatal(err)
	}
	s := &screenOf{t: t, pty: pollable(t, f), cmd: cmd, ended: make(chan struct{}),
		vt: vt10x.New(vt10x.WithSize(columns, rows))}
	go s.watch()
	t.Cleanup(func() {
		cmd.Process.Kill()
		s.pty.Close()
		<-s.ended
		if strings.Contains(s.bytes(), "DATA RACE") {
			t.Errorf("a race behind the terminal\n%s", s.bytes())
		}
	})
	return s
}

// pollable gives the terminal as a file whose Close ends a Read under way, which
// it must to be hung up.
func pollable(t *testing.T, f *os.File) *os.File {
	t.Helper()
	syscall.ForkLock.RLock() // no process started meanwhile may keep it open
	fd, err := syscall.Dup(int(f.Fd()))
	if err == nil {
		syscall.CloseOnExec(fd)
	}
	syscall.ForkLock.RUnlock()
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
	if err := syscall.SetNonblock(fd, true); err != nil {
		t.Fatal(err)
	}
	return os.NewFile(uintptr(fd), "pseudo-terminal")
}

func (s *screenOf) watch() {
	buf := make([]byte, 4096)
	for {
		n, err := s.pty.Read(buf)
		s.lock.Lock()
		s.raw.Write(buf[:n])
		s.vt.Write(buf[:n])
		s.lock.Unlock()
		if err != nil {
			s.cmd.Wait()
			close(s.ended)
			return
		}
	}
}

func (s *screenOf) send(keys string) { s.pty.Write([]byte(keys)) }

func (s *screenOf) text() string {
	s.lock.Lock()
	defer s.lock.Unlock()
	var out []string
	for _, line := range strings.Split(s.vt.String(), "\n") {
		out = append(out, strings.TrimRight(line, " "))
	}
	return strings.Trim(strings.Join(out, "\n"), "\n")
}

func (s *screenOf) bytes() string {
	s.lock.Lock()
	defer s.lock.Unlock()
	return s.raw.String()
}

// await waits until the screen has the words.
func (s *screenOf) await(words string) {
	s.t.Helper()
	s.until("the words "+words, func() bool { return strings.Contains(s.text(), words) })
}

// shows waits until the screen is exactly so.
func (s *screenOf) shows(screen string) {
	s.t.Helper()
	want := strings.Trim(screen, "\n")
	s.until("the screen\n"+want, func() bool { return s.text() == want })
}

func (s *screenOf) until(what string, done func() bool) {
	s.t.Helper()
	for deadline := time.Now().Add(patience); !done(); time.Sleep(2 * time.Millisecond) {
		if time.Now().After(deadline) {
			raw := s.bytes()
			s.t.Fatalf("waited in vain for %s\n--- in\n%s\n--- whose last bytes are %q", what, s.text(), raw[max(0, len(raw)-400):])
		}
	}
}

// exit waits for the process and gives its code.
func (s *screenOf) exit() int {
	s.t.Helper()
	select {
	case <-s.ended:
	case <-time.After(patience):
		s.t.Fatalf("still running\n%s", s.text())
	}
	return s.cmd.ProcessState.ExitCode()
}

func (s *screenOf) resize(columns, rows int) {
	s.lock.Lock()
	defer s.lock.Unlock()
	pty.Setsize(s.pty, &pty.Winsize{Rows: uint16(rows), Cols: uint16(columns)})
	s.vt.Resize(columns, rows)
}
