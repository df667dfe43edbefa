package command

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"

	"faultwalk/trees/strict"
)

func TestProgressShowsOnATerminalAloneAndWipesItself(t *testing.T) {
	t.Parallel()
	terminal := func(string) string { return "xterm" }
	if p := (World{Err: &bytes.Buffer{}, Env: terminal}).progress("proving"); p.to != nil {
		t.Error("a pipe gets progress")
	}
	screen, tty, err := pty.Open()
	if err != nil {
		t.Skip("no pseudo-terminal here: ", err)
	}
	defer screen.Close()
	if p := (World{Err: tty, Env: func(string) string { return "dumb" }}).progress("proving"); p.to != nil {
		t.Error("a dumb terminal gets progress")
	}
	p := World{Err: tty, Env: terminal}.progress("proving")
	p.count(10, 20)
	p.count(0, 9)
	p.wipe()
	p.count(5, 9) // work that was given up and goes on
	tty.WriteString("end")
	want := "\rproving 11 of 20\rproving 1 of 9  \r" + strings.Repeat(" ", len("proving 11 of 20^C")) + "\rend"
	got := make([]byte, len(want))
	screen.SetReadDeadline(time.Now().Add(10 * time.Second))
	if _, err := io.ReadFull(screen, got); err != nil || string(got) != want {
		t.Errorf("the terminal shows %q, %v; want %q", got, err, want)
	}
	tty.Close()
}

func TestExitCodesTellFindingsFromCallsAndFailures(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		err  error
		want int
	}{
		{nil, ExitOK},
		{&exitError{ExitFindings, nil}, ExitFindings},
		{usage("no such folder"), ExitUsage},
		{&exitError{ExitInternal, strict.Problems{{File: "f", Message: "broken"}}}, ExitInternal},
		{errors.New("unknown flag"), ExitUsage},
	} {
		if got := exitCode(c.err, io.Discard); got != c.want {
			t.Errorf("%v ends with %d, want %d", c.err, got, c.want)
		}
	}
}
