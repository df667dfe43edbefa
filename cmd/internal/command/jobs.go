package command

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"faultwalk/cmd/internal/keep"
	"faultwalk/trees"
)

func newJobs(w World) *cobra.Command {
	var dir string
	var asJSON bool
	c := &cobra.Command{
		Use:   "jobs",
		Short: "List the jobs, newest first",
		Example: `  faultwalk jobs
  faultwalk jobs --json`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return runJobs(w, dir, asJSON) },
	}
	jobsFlag(c, &dir)
	c.Flags().BoolVar(&asJSON, "json", false, "write a JSON list")
	return c
}

func runJobs(w World, dir string, asJSON bool) error {
	store, err := w.store(dir)
	if err != nil {
		return err
	}
	all, err := store.List()
	if err != nil {
		return found(err)
	}
	set, problems := trees.EmbeddedHeads()
	if err := problems.Err(); err != nil {
		return &exitError{ExitInternal, err}
	}
	rows := make([]jobRow, 0, len(all))
	for _, s := range all {
		rows = append(rows, row(s, set))
	}
	switch {
	case asJSON:
		return writeJSON(w.Out, rows)
	case len(rows) == 0:
		return writeLines(w.Out, []string{thereAre(store, all)})
	}
	return writeLines(w.Out, jobLines(rows, w.columns()))
}

// jobRow is a job in the list, as JSON shows it. Times are in UTC; what the
// journal does not say is left out.
type jobRow struct {
	ID      string    `json:"id"`
	State   string    `json:"state"`         // open, closed, damaged, later version's
	As      string    `json:"as,omitempty"`  // how a closed job ended
	Why     string    `json:"why,omitempty"` // what is wrong with a damaged one
	Started time.Time `json:"started,omitzero"`
	Last    time.Time `json:"last,omitzero"`
	Events  int       `json:"events"`
	Plant   string    `json:"plant,omitempty"`
	Symptom string    `json:"symptom,omitempty"`
	Sign    string    `json:"sign,omitempty"`
}

func row(s keep.Summary, set *trees.Set) jobRow {
	r := jobRow{s.ID, string(s.State), s.As, s.Why, s.Started.UTC(), s.Last.UTC(), s.Events, s.Plant, s.Symptom, ""}
	if known := set.Symptoms[s.Symptom]; known != nil {
		r.Sign = known.Sign
	}
	return r
}

// broad is the width from which a job stands on one line.
const broad = 72

// jobLines sets the list: in columns where there is room, a few lines for each
// job where there is not.
func jobLines(rows []jobRow, width int) []string {
	if width < broad {
		var out []string
		for _, r := range rows {
			out = append(out, indented("", r.ID+"  "+r.stands(), width)...)
			out = append(out, indented("  ", r.about(), width)...)
		}
		return out
	}
	ids, states, plants := len("job"), len("state"), len("plant")
	for _, r := range rows {
		ids, states, plants = max(ids, len(r.ID)), max(states, len(r.state())), max(plants, len(r.Plant))
	}
	lead := func(id, state, when, plant string) string {
		return fmt.Sprintf("%-*s  %-*s  %-16s  %-*s  ", ids, id, states, state, when, plants, plant)
	}
	out := []string{lead("job", "state", "latest, UTC", "plant") + "sign"}
	for _, r := range rows {
		out = append(out, indented(lead(r.ID, r.state(), when(r.Last), r.Plant), cmp.Or(r.Why, r.Sign, r.Symptom, "-"), width)...)
	}
	return out
}

// state is how a job stands in a word or two.
func (r jobRow) state() string {
	first, _, _ := strings.Cut(r.As, ",") // "left safe, retest due"
	return cmp.Or(first, r.State)
}

// stands is the same in full.
func (r jobRow) stands() string { return cmp.Or(r.As, r.State) }

// about is when, where and what, on one line.
func (r jobRow) about() string {
	var parts []string
	for _, p := range []string{when(r.Last) + " UTC", r.Plant, cmp.Or(r.Sign, r.Symptom), r.Why} {
		if p != "" && p != " UTC" {
			parts = append(parts, p)
		}
	}
	return strings.Join(parts, ", ")
}

func when(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format("2006-01-02 15:04")
}
