package command

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"faultwalk/cmd/internal/keep"
	"faultwalk/cmd/internal/terminal"
	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/trees"
)

// calloutFlags are the flags of a callout.
type calloutFlags struct {
	plant, symptom string
	readings       []string
	where          jobFlags
	jurisdiction   string
}

// jobFlags say where answers come from, where jobs lie, which trees count.
type jobFlags struct{ answers, jobs, trees string }

func (f *jobFlags) bind(s *pflag.FlagSet) {
	s.StringVar(&f.answers, "answers", "", "file with what a person would type, a line each; # for remarks")
	s.StringVar(&f.jobs, "jobs", "", "folder for jobs (otherwise under $XDG_STATE_HOME/faultwalk)")
	s.StringVar(&f.trees, "trees", "", "folder with trees of your own, laid over the embedded ones")
}

func (f *calloutFlags) bind(c *cobra.Command) {
	s := c.Flags()
	s.StringVar(&f.plant, "plant", "", "id of the plant, such as millrace-small")
	s.StringVar(&f.symptom, "symptom", "", "id of the symptom, such as cylinder-stays-cold")
	s.StringArrayVar(&f.readings, "reading", nil, "a reading taken already: 'CHECK=VALUE'; may be repeated")
	s.StringVar(&f.jurisdiction, "jurisdiction", "", "whose rules of the trade hold (otherwise from the config, gb)")
	f.where.bind(s)
}

func newCallout(w World) *cobra.Command {
	var o calloutFlags
	c := &cobra.Command{
		Use:   "callout [WORDS…]",
		Short: "Start a job: from the first question to a proven repair",
		Example: `  faultwalk callout --plant millrace-small --symptom cylinder-stays-cold
  faultwalk callout tank cold rads hot
  faultwalk callout --reading 'driven at diverter-switch calling hot-water=239'`,
		RunE: func(_ *cobra.Command, words []string) error { return runCallout(w, o, strings.Join(words, " ")) },
	}
	o.bind(c)
	return c
}

func runCallout(w World, o calloutFlags, said string) error {
	config, err := w.config()
	if err != nil {
		return err
	}
	lib, err := w.library(o.where.trees, config)
	if err != nil {
		return err
	}
	if err := o.known(lib); err != nil {
		return err
	}
	store, err := w.store(o.where.jobs)
	if err != nil {
		return err
	}
	face, done, err := w.face(o.where.answers)
	if err != nil {
		return err
	}
	defer done()
	jurisdiction := config.Jurisdiction
	if o.jurisdiction != "" {
		jurisdiction = o.jurisdiction
	}
	var job *walk.Job
	by := operator(config)
	kept, err := store.Create(w.Now(), keep.Set{Hash: lib.Set.Hash(), Pack: lib.Set.Pack()}, func(id string) []journal.Event {
		var first journal.Event
		job, first = walk.Begin(lib, id, by, jurisdiction, now(w))
		return []journal.Event{first}
	})
	if err != nil {
		return err
	}
	defer kept.Close()
	face.Print("Job "+kept.ID+". Ctrl-C or stop saves it; nothing typed is lost.", "")
	if lib.Set.Jurisdictions[jurisdiction] == nil {
		face.Print(fmt.Sprintf("There is no jurisdiction %q here: licensed practice in your country applies, and only look-and-listen steps are left.", jurisdiction), "")
	}
	face.Print(heard(lib.Set, said)...)
	s := &terminal.Session{Face: face, Job: job, Store: kept.Append, By: by, Now: func() time.Time { return now(w) },
		Given: map[string]string{"plant": o.plant, "symptom": o.symptom}, Early: o.readings}
	return finish(w, s, kept.ID, o.where.jobs)
}

// mayMean is how many symptoms are named that a caller's words may mean.
const mayMean = 4

// heard says which symptoms the caller's words may mean, the likeliest first,
// and why. The question what is wrong still comes in its place.
func heard(set *trees.Set, said string) []string {
	if said == "" {
		return nil
	}
	all := walk.Hear(set, said)
	if len(all) == 0 {
		return []string{"Nothing in “" + said + "” is known here; choose from the list when it comes.", ""}
	}
	lines := []string{"“" + said + "” may mean, the likeliest first:"}
	for i, h := range all[:min(mayMean, len(all))] {
		lines = append(lines, fmt.Sprintf("  %d. %s (%s): %s", i+1, set.Symptoms[h.Symptom].Sign, h.Symptom, h.Because))
	}
	return append(lines, "")
}

// known refuses ids that do not exist before anything is asked.
func (f calloutFlags) known(lib walk.Library) error {
	if f.plant != "" && lib.Set.Plants[f.plant] == nil {
		return usage("there is no plant %q; expected one of %s", f.plant, list(lib.Set.Plants))
	}
	if f.symptom != "" && lib.Set.Symptoms[f.symptom] == nil {
		return usage("there is no symptom %q; expected one of %s", f.symptom, list(lib.Set.Symptoms))
	}
	return nil
}

// face is the terminal, a pipe, or a file of answers.
func (w World) face(answers string) (*terminal.Face, func(), error) {
	if answers == "" {
		return terminal.New(w.In, w.Out, w.Env), func() {}, nil
	}
	f, err := os.Open(answers)
	if err != nil {
		return nil, nil, usage("--answers: %v", err)
	}
	width := terminal.New(w.In, w.Out, w.Env).Width()
	return terminal.NewLines(f, w.Out, width), func() { f.Close() }, nil
}

// now is the time to the second, in UTC: finer is nobody's business on a sheet.
func now(w World) time.Time { return w.Now().UTC().Truncate(time.Second) }

func operator(c keep.Config) string {
	if c.Operator != "" {
		return c.Operator
	}
	return "operator"
}

// finish runs a session and says how it can be taken up again.
func finish(w World, s *terminal.Session, id, dir string) error {
	err := s.Run()
	again := "faultwalk resume " + id
	if dir != "" {
		again += " --jobs " + dir
	}
	sheet := "faultwalk sheet " + id
	if dir != "" {
		sheet += " --jobs " + dir
	}
	switch {
	case err == nil && s.Job.Closed() != nil:
		s.Face.Print("", "The sheet: "+sheet)
		return nil
	case err == nil:
		s.Face.Print("", "Saved. Go on with: "+again)
		return nil
	case errors.Is(err, terminal.ErrInterrupted):
		s.Face.Print("", "Saved. Go on with: "+again)
		return &exitError{ExitInterrupted, nil}
	case errors.Is(err, terminal.ErrEnd):
		s.Face.Print("", "The answers ended before the job did. Saved. Go on with: "+again)
		return &exitError{ExitFindings, nil}
	}
	return &exitError{ExitFindings, fmt.Errorf("%w\nWhat was answered is saved. Go on with: %s", err, again)}
}
