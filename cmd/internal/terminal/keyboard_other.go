//go:build !windows

package terminal

import (
	"io"
	"os"
	"os/signal"
	"syscall"

	"github.com/chzyer/readline"
)

// keyboard gives the terminal in raw mode and how many bytes to ask it for at
// once: one, so that nothing is read ahead of what is asked.
//
// readline follows a resize from a goroutine of its own, without a lock. It has
// no use for the width, as the line it edits itself stays empty under promptui,
// so its handler is set up here, once, and cut off.
func keyboard(in *os.File) (io.Reader, int) {
	readline.DefaultOnWidthChanged(func() {})
	signal.Reset(syscall.SIGWINCH)
	return in, 1
}

// screen gives the terminal to write to.
func screen(out *os.File) io.Writer { return out }
