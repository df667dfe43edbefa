package command

import (
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"faultwalk/cmd/internal/keep"
	"faultwalk/cmd/internal/terminal"
	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/trees"
)

// resumeFlags say which job is taken up and where answers come from.
type resumeFlags struct{ answers, jobs string }

func newResume(w World) *cobra.Command {
	var o resumeFlags
	c := &cobra.Command{
		Use:   "resume [JOB]",
		Short: "Go on with a job; without a name, with the newest that is open",
		Long: `Resume goes on where a job was left. It finishes on the trees it began with;
the guard, the gates and the cautions are those of this program. What was
proved dead and what was waited for must be done again.`,
		Example: `  faultwalk resume
  faultwalk resume 2026-11-25-1`,
		Args:              atMostOneJob,
		ValidArgsFunction: completeJobs(w, &o.jobs),
		RunE: func(_ *cobra.Command, args []string) error {
			id := ""
			if len(args) == 1 {
				id = args[0]
			}
			return runResume(w, id, o)
		},
	}
	jobsFlag(c, &o.jobs)
	c.Flags().StringVar(&o.answers, "answers", "", "file with what a person would type, a line each; # for remarks")
	return c
}

func atMostOneJob(c *cobra.Command, args []string) error {
	if len(args) < 2 {
		return nil
	}
	return usage("expected one job at most: %s [JOB]; `faultwalk jobs` lists them", c.CommandPath())
}

func runResume(w World, id string, o resumeFlags) error {
	store, err := w.store(o.jobs)
	if err != nil {
		return err
	}
	if id == "" {
		if id, err = newestOpen(store); err != nil {
			return err
		}
	}
	config, err := w.config()
	if err != nil {
		return err
	}
	face, done, err := w.face(o.answers)
	if err != nil {
		return err
	}
	defer done()
	kept, err := store.Open(id)
	if err != nil {
		return cannotOpen(store, id, o.jobs, err)
	}
	defer kept.Close()
	if kept.Mended != "" {
		face.Print("Mended: "+kept.Mended+".", "")
	}
	lib, news, err := w.begunLibrary(store, kept.Events, config)
	if err != nil {
		return found(fmt.Errorf("job %s: %w\nNothing was changed. What was recorded is on the sheet: %s", id, err, again("sheet", id, o.jobs)))
	}
	return takeUp(w, kept, lib, news, face, operator(config), o.jobs)
}

// newestOpen is the job to go on with where none is named.
func newestOpen(store keep.Store) (string, error) {
	all, err := store.List()
	if err != nil {
		return "", found(err)
	}
	for _, s := range all {
		if s.State == keep.StateOpen {
			return s.ID, nil
		}
	}
	if len(all) == 0 {
		return "", found(errors.New(thereAre(store, all)))
	}
	return "", found(fmt.Errorf("no job is open; `faultwalk callout` begins one\n%s", thereAre(store, all)))
}

// cannotOpen says why a job cannot be gone on with, and what can be done.
func cannotOpen(store keep.Store, id, dir string, err error) error {
	var refused *keep.Refusal
	if errors.As(err, &refused) && len(refused.Events) > 0 {
		return found(fmt.Errorf("%w\nWhat could be read: %s", err, again("sheet", id, dir)))
	}
	return unknownJob(store, err)
}

// begunLibrary is what a job was begun with, guarded by this program; news says
// what has changed since.
func (w World) begunLibrary(store keep.Store, events []journal.Event, config keep.Config) (lib walk.Library, news []string, err error) {
	running, problems := trees.EmbeddedHeads()
	if err := problems.Err(); err != nil {
		return lib, nil, &exitError{ExitInternal, err}
	}
	hash, safety, by := begunOn(events)
	set, err := keptSet(store, hash, running)
	if err != nil {
		return lib, nil, err
	}
	if hash != running.Hash() {
		news = append(news, "This job finishes on the trees it was begun on; this program's own are others by now.")
	}
	if safety != running.SafetyHash() {
		news = append(news, "What keeps people safe has changed since this job began: the gates, cautions, stops and limits of mains are those of this program from now on.")
	}
	if by != build {
		news = append(news, fmt.Sprintf("It was worked on with faultwalk %s; this is %s, and its guard judges from now on.", by, build))
	}
	return walk.Library{Set: set, Kit: config.Kit, Build: build}, news, nil
}

// takeUp records that the job goes on, then goes on.
func takeUp(w World, kept *keep.Job, lib walk.Library, news []string, face *terminal.Face, by, dir string) error {
	job, mismatches := walk.Resume(lib, kept.Events)
	if c := job.Closed(); c != nil {
		return found(fmt.Errorf("job %s is closed: %s\nIts sheet: %s", kept.ID, c.As, again("sheet", kept.ID, dir)))
	}
	face.Print(standing(kept, job)...)
	face.Print(news...)
	for _, m := range mismatches {
		face.Print("Not as it was recorded: " + m + ".")
	}
	e := job.TakeUp(by, now(w))
	if err := kept.Append(e); err != nil {
		return found(err)
	}
	job.Apply(e)
	for _, open := range job.Exposed() {
		face.Print("! It was left " + open + ". Nobody reaches in.")
	}
	s := &terminal.Session{Face: face, Job: job, Store: kept.Append, By: by, Now: func() time.Time { return now(w) }}
	return finish(w, s, kept.ID, dir)
}

// standing says which job this is and when it was left.
func standing(kept *keep.Job, job *walk.Job) []string {
	last := kept.Events[len(kept.Events)-1].At.UTC()
	line := fmt.Sprintf("Job %s goes on; its last entry is of %s UTC.", kept.ID, when(last))
	if p, s := job.Plant(), job.Symptom(); p != nil && s != nil {
		line += " " + s.Sign + ", on " + p.ID + "."
	}
	return []string{line, "What was proved dead or waited for must be done again. Ctrl-C or stop saves it; nothing typed is lost."}
}
