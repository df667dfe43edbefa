package command

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"faultwalk/cmd/internal/keep"
	"faultwalk/engine/journal"
	"faultwalk/engine/sheet"
	"faultwalk/engine/walk"
	"faultwalk/trees"
)

// sheetFlags say how a sheet is written and where to.
type sheetFlags struct{ jobs, as, output string }

func newSheet(w World) *cobra.Command {
	var o sheetFlags
	c := &cobra.Command{
		Use:   "sheet JOB",
		Short: "Write the job sheet: as text, as a page that prints on A4, or as JSON",
		Example: `  faultwalk sheet 2026-11-25-1
  faultwalk sheet 2026-11-25-1 --as html --output sheet.html`,
		Args:              oneJob,
		ValidArgsFunction: completeJobs(w, &o.jobs),
		RunE:              func(_ *cobra.Command, args []string) error { return runSheet(w, args[0], o) },
	}
	jobsFlag(c, &o.jobs)
	c.Flags().StringVar(&o.as, "as", "text", "text, html or json")
	c.Flags().StringVar(&o.output, "output", "", "file to write to, in place of standard output")
	return c
}

// oneJob wants the name of a job and says how to find it.
func oneJob(c *cobra.Command, args []string) error {
	if len(args) == 1 {
		return nil
	}
	return usage("expected one job: %s JOB; `faultwalk jobs` lists them", c.CommandPath())
}

func runSheet(w World, id string, o sheetFlags) error {
	if o.as != "text" && o.as != "html" && o.as != "json" {
		return usage("--as %s: expected text, html or json", o.as)
	}
	store, err := w.store(o.jobs)
	if err != nil {
		return err
	}
	events, damage, err := store.Read(id)
	switch {
	case err != nil:
		return unknownJob(store, err)
	case len(events) == 0:
		return found(fmt.Errorf("job %s: nothing of it can be read: %w", id, damage))
	}
	s, err := w.sheetOf(store, events)
	if err != nil {
		return err
	}
	if damage != nil {
		s.Damage = damage.Error()
	}
	if err := w.writeSheet(store, s, o); err != nil {
		return err
	}
	if damage != nil {
		return found(fmt.Errorf("job %s: %w; the sheet holds the %d events before that, and the journal is as it was", id, damage, len(events)))
	}
	return nil
}

// sheetOf makes the sheet in the words of the trees the job was begun on, or of
// this program's where those cannot be had.
func (w World) sheetOf(store keep.Store, events []journal.Event) (sheet.Sheet, error) {
	config, err := w.config()
	if err != nil {
		return sheet.Sheet{}, err
	}
	running, problems := trees.EmbeddedHeads()
	if err := problems.Err(); err != nil {
		return sheet.Sheet{}, &exitError{ExitInternal, err}
	}
	hash, _, _ := begunOn(events)
	doubt := ""
	set, err := keptSet(store, hash, running)
	if err != nil {
		say(w.Err, "faultwalk: %v\nThe sheet is in the words of this program's own trees.", err)
		set, doubt = running, "the trees this job was begun on could not be read; the words are those of other trees"
	}
	s := sheet.Of(walk.Library{Set: set, Kit: config.Kit, Build: build}, events)
	if doubt != "" {
		s.Doubts = append([]string{doubt}, s.Doubts...)
	}
	return s, nil
}

func (w World) writeSheet(store keep.Store, s sheet.Sheet, o sheetFlags) error {
	var text []byte
	var err error
	switch o.as {
	case "html":
		text, err = sheet.HTML(s)
	case "json":
		text, err = sheet.JSON(s)
	default:
		text = []byte(sheet.Text(s, w.columns()))
	}
	if err != nil {
		return &exitError{ExitInternal, err}
	}
	if o.output != "" && o.output != "-" {
		return output(store, o.output, text)
	}
	if _, err := w.Out.Write(text); err != nil {
		return found(fmt.Errorf("the sheet could not be written: %w", err))
	}
	return nil
}

// output writes a file that only this person can read, and never over a journal.
func output(store keep.Store, path string, text []byte) error {
	abs, err := filepath.Abs(path)
	if err != nil {
		return usage("--output %s: %v", path, err)
	}
	if inside, err := filepath.Rel(store.Dir, abs); err == nil && !strings.HasPrefix(inside, "..") && kept(abs) {
		return usage("--output %s: a journal would be written over; expected another name", path)
	}
	f, err := os.OpenFile(abs, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err == nil {
		_, err = f.Write(text)
		err = errors.Join(err, f.Close())
	}
	if err != nil {
		return found(fmt.Errorf("the sheet could not be written: %w", err))
	}
	return nil
}

// kept says whether a name is one of those that jobs are kept under.
func kept(path string) bool {
	switch filepath.Ext(path) {
	case ".jsonl", ".torn", ".pack":
		return true
	}
	return filepath.Base(path) == ".lock"
}
