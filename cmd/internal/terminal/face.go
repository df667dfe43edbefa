// Package terminal shows a job and takes its answers: promptui where both ends
// are terminals, one plain line reader otherwise, the same words in both.
//
// Start with New, or with NewLines for a file of answers; then Print what is to
// be said, Choose among options, ask for a Line, or for a longer Text. The
// package knows nothing of jobs, readings or plants.
package terminal

import (
	"errors"
	"io"
	"os"
	"os/signal"
	"strconv"
	"syscall"

	"golang.org/x/term"
)

var (
	// ErrInterrupted says that the person (Ctrl-C) or the system (SIGINT,
	// SIGTERM) asked to stop while an answer was awaited.
	ErrInterrupted = errors.New("interrupted")
	// ErrEnd says that no more answers will come: Ctrl-D, or the end of a pipe
	// or of a file of answers.
	ErrEnd = errors.New("end of input")
)

// Face is where a job is shown and answered. It is for one goroutine; make one
// Face for each process, because what was typed ahead belongs to it.
type Face struct {
	in  *source
	out *sink
	// size gives the columns that may be written and the rows there are.
	size    func() (columns, rows int)
	prompts bool // promptui draws
	colour  bool
	echo    bool // what is typed does not show by itself
	ahead   bool // answers wait in a file: read first, then show the question
	signals bool // the process may be told to stop while it waits
}

// New gives the Face of a process: promptui where in and out are the terminal
// the process was started on and TERM is neither empty nor "dumb", lines
// otherwise. env looks a variable up, as os.Getenv does; NO_COLOR, TERM and
// COLUMNS are read. From here on a broken pipe is an error of the next answer
// asked for, where Go would end the process at the write.
func New(in, out *os.File, env func(string) string) *Face {
	signal.Notify(make(chan os.Signal, 1), syscall.SIGPIPE)
	typed, shown := isTerminal(in), isTerminal(out)
	able := env("TERM") != "" && env("TERM") != "dumb"
	f := &Face{
		in:      newSource(in, 4096),
		out:     &sink{w: out},
		size:    fixedSize(columnsFrom(env("COLUMNS"))),
		colour:  shown && able && env("NO_COLOR") == "",
		echo:    !typed,
		ahead:   isFile(in),
		signals: true,
	}
	if typed {
		f.in = newSource(in, 1)
	}
	if shown {
		f.size = func() (int, int) { return terminalSize(out, env) }
	}
	// promptui puts standard input into raw mode, whatever it reads from.
	if typed && shown && able && in.Fd() == os.Stdin.Fd() {
		f.prompts = true
		f.in.keys, f.in.keySize = keyboard(in)
		f.out.w = screen(out)
	}
	return f
}

// NewLines gives a Face that takes its answers from r, a line each, shows what
// is asked and answered on w like a session, and wraps to width columns (at
// least 20). Nothing interrupts it.
func NewLines(r io.Reader, w io.Writer, width int) *Face {
	return &Face{
		in:    newSource(r, 4096),
		out:   &sink{w: w},
		size:  fixedSize(max(width, narrowest)),
		echo:  true,
		ahead: true,
	}
}

// Width is how many columns a line may fill now. On a terminal it is one less
// than there are, because some terminals wrap in the last; it follows a resize.
func (f *Face) Width() int {
	columns, _ := f.size()
	return columns
}

// Colour says whether bold and colour may be used: a terminal that is not dumb,
// and no NO_COLOR (https://no-color.org). Colour never carries a meaning alone.
func (f *Face) Colour() bool { return f.colour }

// Err is the first error of writing, nil if all could be shown. Choose, Line
// and Text return it too.
func (f *Face) Err() error { return f.out.err() }

// stops gives the channel on which a signal to stop arrives while an answer is
// awaited, and what to call afterwards.
func (f *Face) stops() (<-chan os.Signal, func()) {
	if !f.signals {
		return nil, func() {}
	}
	stop := make(chan os.Signal, 1)
	signal.Notify(stop, os.Interrupt, syscall.SIGTERM)
	return stop, func() { signal.Stop(stop) }
}

const (
	narrowest   = 20 // columns below which wrapping only harms
	usualWidth  = 80
	usualHeight = 24
)

func fixedSize(columns int) func() (int, int) {
	return func() (int, int) { return columns, usualHeight }
}

func columnsFrom(variable string) int {
	n, err := strconv.Atoi(variable)
	if err != nil || n < narrowest || n > 1000 {
		return usualWidth
	}
	return n
}

// terminalSize asks the terminal; one that does not know (a serial line says 0)
// is taken to be as wide as COLUMNS, or 80.
func terminalSize(out *os.File, env func(string) string) (columns, rows int) {
	columns, rows, err := term.GetSize(int(out.Fd()))
	if err != nil || columns <= 0 {
		columns = columnsFrom(env("COLUMNS"))
	}
	if err != nil || rows <= 0 {
		rows = usualHeight
	}
	return max(columns-1, narrowest), rows
}

func isTerminal(f *os.File) bool { return term.IsTerminal(int(f.Fd())) }

func isFile(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode().IsRegular()
}
