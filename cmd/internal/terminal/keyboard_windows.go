package terminal

import (
	"io"
	"os"

	"github.com/chzyer/readline"
)

// keyboard gives the console's key events as readline translates them. One read
// is one event, whole only if there is room for a character's bytes.
func keyboard(*os.File) (io.Reader, int) { return readline.Stdin, 8 }

// screen gives the console through readline's translation, because older ones
// take no escape sequences.
func screen(*os.File) io.Writer { return readline.Stdout }
