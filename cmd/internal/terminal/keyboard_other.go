//go:build !windows

package terminal

import (
	"io"
	"os"
)

// keyboard gives the terminal in raw mode and how many bytes to ask it for at
// once: one, so that nothing is read ahead of a prompt.
func keyboard(in *os.File) (io.Reader, int) { return in, 1 }

// screen gives the terminal to write to.
func screen(out *os.File) io.Writer { return out }
