package command

import (
	"cmp"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"faultwalk/cmd/internal/keep"
	"faultwalk/cmd/internal/terminal"
)

func newForget(w World) *cobra.Command {
	var dir string
	var yes bool
	c := &cobra.Command{
		Use:   "forget JOB",
		Short: "Remove a job and everything kept of it",
		Long: `Forget removes the journal of a job, what was cut off it, and the trees that no
other job uses. Sheets written to files elsewhere are yours to remove.`,
		Example:           `  faultwalk forget 2026-11-25-1`,
		Args:              oneJob,
		ValidArgsFunction: completeJobs(w, &dir),
		RunE:              func(_ *cobra.Command, args []string) error { return runForget(w, args[0], dir, yes) },
	}
	jobsFlag(c, &dir)
	c.Flags().BoolVar(&yes, "yes", false, "remove it without asking")
	return c
}

func runForget(w World, id, dir string, yes bool) error {
	store, err := w.store(dir)
	if err != nil {
		return err
	}
	s, err := summaryOf(store, id)
	if err != nil {
		return unknownJob(store, err)
	}
	if !yes {
		sure, err := ask(terminal.New(w.In, w.Out, w.Env), s)
		if err != nil || !sure {
			return nothingRemoved(w, err)
		}
	}
	removed, err := store.Forget(id)
	for _, path := range removed {
		say(w.Out, "removed %s", path)
	}
	if err != nil {
		return found(err)
	}
	say(w.Out, "Job %s is forgotten.", id)
	return nil
}

// summaryOf finds a job in the list; damaged ones are there too.
func summaryOf(store keep.Store, id string) (keep.Summary, error) {
	if _, err := store.Path(id); err != nil {
		return keep.Summary{}, err
	}
	all, err := store.List()
	if err != nil {
		return keep.Summary{}, err
	}
	for _, s := range all {
		if s.ID == id {
			return s, nil
		}
	}
	return keep.Summary{}, fmt.Errorf("job %s: %w", id, keep.ErrNoJob)
}

// ask shows what would be lost and waits for a word; nothing is chosen beforehand.
func ask(face *terminal.Face, s keep.Summary) (bool, error) {
	events := fmt.Sprintf("%d events", s.Events)
	if s.Events == 1 {
		events = "1 event"
	}
	face.Print(fmt.Sprintf("Job %s: %s, %s, %s, %s.", s.ID, cmp.Or(s.As, string(s.State)),
		cmp.Or(s.Plant, "no plant yet"), cmp.Or(s.Symptom, "no sign yet"), events))
	c, err := face.Choose("Remove it for good?", []terminal.Option{{ID: "no", Text: "keep it"}, {ID: "yes", Text: "remove it"}}, nil)
	return c.ID == "yes", err
}

// nothingRemoved says so, and turns the lack of an answer into what the program
// ends with.
func nothingRemoved(w World, err error) error {
	say(w.Out, "Nothing was removed.")
	switch {
	case err == nil || errors.Is(err, terminal.ErrInterrupted):
		return err
	case errors.Is(err, terminal.ErrEnd):
		return found(errors.New("no answer was given; --yes removes it without asking"))
	}
	return found(err)
}
