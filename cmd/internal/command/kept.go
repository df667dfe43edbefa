package command

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"faultwalk/cmd/internal/keep"
	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// found marks an error as what the work came to: the call was right.
func found(err error) error { return &exitError{ExitFindings, err} }

// jobsFlag adds --jobs to a command.
func jobsFlag(c *cobra.Command, dir *string) {
	c.Flags().StringVar(dir, "jobs", "", "folder for jobs (otherwise under $XDG_STATE_HOME/faultwalk)")
}

// completeJobs offers the ids of the jobs there are.
func completeJobs(w World, dir *string) func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		var ids []string
		if store, err := w.store(*dir); err == nil {
			all, _ := store.List()
			for _, s := range all {
				ids = append(ids, s.ID)
			}
		}
		return ids, cobra.ShellCompDirectiveNoFileComp
	}
}

// unknownJob adds to an error of a name that no job has which jobs there are.
func unknownJob(store keep.Store, err error) error {
	if !errors.Is(err, keep.ErrNoJob) {
		return found(err)
	}
	all, listing := store.List()
	if listing != nil {
		return found(err)
	}
	return found(fmt.Errorf("%w\n%s", err, thereAre(store, all)))
}

// mostNamed is how many jobs a message names.
const mostNamed = 5

func thereAre(store keep.Store, all []keep.Summary) string {
	if len(all) == 0 {
		return "There is no job in " + store.Dir + "; `faultwalk callout` begins one."
	}
	var ids []string
	for _, s := range all[:min(len(all), mostNamed)] {
		ids = append(ids, s.ID)
	}
	more := ""
	if n := len(all) - mostNamed; n > 0 {
		more = fmt.Sprintf(" and %d more: `faultwalk jobs` lists them", n)
	}
	return "In " + store.Dir + " there are: " + strings.Join(ids, ", ") + more + "."
}

// again writes a command that goes on in the same folder.
func again(command, id, dir string) string {
	line := "faultwalk " + command + " " + id
	if dir != "" {
		line += " --jobs " + quoted(dir)
	}
	return line
}

// quoted makes a path one word of a shell, where it would be more.
func quoted(path string) string {
	if !strings.ContainsAny(path, " \t\n\"'\\$&;|<>()*?[]#~`!{}") {
		return path
	}
	return "'" + strings.ReplaceAll(path, "'", `'\''`) + "'"
}

// begunOn gives the tree set a job is worked on with: the one its last event
// about it names, which is the one it began with.
func begunOn(events []journal.Event) (trees, safety, build string) {
	for _, e := range events {
		switch b := e.Body.(type) {
		case *journal.Opened:
			trees, safety, build = b.Trees, b.Safety, b.Build
		case *journal.Resumed:
			trees, build = b.Trees, b.Build
		}
	}
	return trees, safety, build
}

// keptSet reads the tree set of a hash: the embedded one if it is that, or the
// one kept beside the jobs. What keeps people safe is always this program's.
func keptSet(store keep.Store, hash string, running *trees.Set) (*trees.Set, error) {
	if hash == running.Hash() {
		return running, nil
	}
	pack, err := store.Set(hash)
	if err != nil {
		return nil, err
	}
	set, problems := trees.Unpack(pack)
	if err := problems.Err(); err != nil {
		return nil, fmt.Errorf("the trees the job was begun on cannot be read by this program: %w", err)
	}
	if set.Hash() != hash {
		return nil, fmt.Errorf("the kept trees %.12s were altered: they have the hash %.12s", hash, set.Hash())
	}
	return set.WithSafety(running), nil
}

// columns is how wide text is set: the terminal's width, COLUMNS where the
// output is none, or 80.
func (w World) columns() int {
	if n, err := strconv.Atoi(w.Env("COLUMNS")); err == nil && n >= 20 && n <= 1000 && !isTerminal(w.Out) {
		return n
	}
	return width(w.Out)
}

func isTerminal(f *os.File) bool { return f != nil && term.IsTerminal(int(f.Fd())) }

// say writes one line of help or warning beside the output.
func say(to io.Writer, format string, args ...any) { fmt.Fprintf(to, format+"\n", args...) }
