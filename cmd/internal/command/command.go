// Package command is the command line: it reads flags, opens what is kept, and
// hands a job to a face. Main is the whole program.
package command

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"time"

	"github.com/spf13/cobra"

	"faultwalk/cmd/internal/keep"
	"faultwalk/cmd/internal/terminal"
	"faultwalk/trees/strict"
)

// Exit codes.
const (
	ExitOK          = 0
	ExitFindings    = 1 // the work was done and found something, or could not be finished
	ExitUsage       = 2 // the call was wrong
	ExitInternal    = 3 // our own failure
	ExitInterrupted = 130
)

// World is what the program sees of the outside: its streams, environment and clock.
type World struct {
	In       *os.File
	Out      *os.File
	Err      io.Writer
	Env      func(string) string
	Now      func() time.Time
	Home     string
	System   string
	ReadFile func(string) ([]byte, error)
}

// OS is the real outside.
func OS() World {
	home, _ := os.UserHomeDir()
	return World{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Env: os.Getenv, Now: time.Now, Home: home, System: runtime.GOOS, ReadFile: os.ReadFile}
}

// exitError carries an exit code through cobra; an empty message prints nothing.
type exitError struct {
	code int
	err  error
}

func (e *exitError) Error() string {
	if e.err == nil {
		return ""
	}
	return e.err.Error()
}

func (e *exitError) Unwrap() error { return e.err }

// usage marks an error as the caller's.
func usage(format string, args ...any) error {
	return &exitError{ExitUsage, fmt.Errorf(format, args...)}
}

// Main runs the program and gives its exit code.
func Main(args []string, w World) int {
	root := newRoot(w)
	root.SetArgs(args)
	root.SetOut(w.Out)
	root.SetErr(w.Err)
	return exitCode(root.Execute(), w.Err)
}

// exitCode prints an error once and says what the program ends with.
func exitCode(err error, to io.Writer) int {
	var exit *exitError
	switch {
	case err == nil:
		return ExitOK
	case errors.As(err, &exit):
		if exit.err != nil {
			tell(to, "faultwalk: "+exit.err.Error())
		}
		return exit.code
	case errors.Is(err, terminal.ErrInterrupted):
		return ExitInterrupted
	}
	var problems strict.Problems
	if errors.As(err, &problems) {
		tell(to, problems.Format(20))
		return ExitFindings
	}
	tell(to, "faultwalk: "+err.Error())
	if ours(err) {
		return ExitFindings
	}
	return ExitUsage
}

// ours says whether an error came from the work rather than from the call.
func ours(err error) bool {
	var path *os.PathError
	return errors.As(err, &path) || errors.Is(err, keep.ErrNoJob) || errors.Is(err, keep.ErrBusy) || errors.Is(err, keep.ErrBroken)
}

func newRoot(w World) *cobra.Command {
	var o calloutFlags
	root := &cobra.Command{
		Use:   "faultwalk",
		Short: "From a symptom of a heat pump to a proven repair, a reading at a time",
		Long: `Faultwalk takes a symptom, walks a decision tree with you, says where to put
the probes, in which state of the plant, and what should be read there, judges
what you read, keeps you safe, and ends at a likely cause with its repair,
its retest and a job sheet.

Without a command it starts a callout and asks everything.`,
		Args:          cobra.NoArgs,
		Version:       build,
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE:          func(c *cobra.Command, _ []string) error { return runCallout(w, o, "") },
	}
	root.SetFlagErrorFunc(flagError)
	o.bind(root)
	root.AddCommand(newCallout(w), newResume(w), newJobs(w), newForget(w), newSheet(w), newVet(w), newRehearse(w), newProbe(w), newNetlist(w), newExpect(), newSettings(w))
	layHelp(root, w)
	return root
}
