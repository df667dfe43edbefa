//go:build unix

package keep

import (
	"errors"
	"os/exec"
	"os/signal"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"
)

// limitRoom lets no file of this process grow beyond so many bytes: the system
// then writes what fits of a line and refuses the rest, as a full disk does.
func limitRoom(bytes string) error {
	if bytes == "" {
		return nil
	}
	signal.Ignore(syscall.SIGXFSZ)
	n, err := strconv.ParseUint(bytes, 10, 64)
	if err != nil {
		return err
	}
	return unix.Setrlimit(unix.RLIMIT_FSIZE, &unix.Rlimit{Cur: n, Max: n})
}

func TestWhenThereIsNoMoreRoomEveryAcknowledgedAnswerIsKept(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	const room = 10_000
	c := childOf(s, envRoom+"="+strconv.Itoa(room))
	var said strings.Builder
	c.Stderr = &said
	out, err := c.Output()
	var exit *exec.ExitError
	if !errors.As(err, &exit) || !strings.Contains(said.String(), "cannot store the answer in "+s.Dir) || !strings.Contains(said.String(), "file too large") {
		t.Fatalf("the child ended with %v and said %q", err, said.String())
	}
	id, n := acknowledged(t, strings.NewReader(string(out)), func() {})
	if holds(t, s, id, n) {
		t.Error("a piece of a line was left behind")
	}
	size := len(s.bytes(t, id))
	if events, _, _ := s.Read(id); len(events) != n || size > room || size < room-1000 {
		t.Errorf("%d events are stored in %d bytes, %d were acknowledged", len(events), size, n)
	}
}
