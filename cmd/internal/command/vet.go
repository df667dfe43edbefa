package command

import (
	"os"
	"strings"

	"github.com/spf13/cobra"

	"faultwalk/trees"
	"faultwalk/trees/strict"
	"faultwalk/trees/vet"
)

// vetShown is how many problems the text lists; JSON has them all.
const vetShown = 50

func newVet(w World) *cobra.Command {
	var own string
	var asJSON bool
	c := &cobra.Command{
		Use:   "vet [PATH…]",
		Short: "Prove every step of every tree on every plant",
		Long: `Proves the embedded trees, or those of each PATH laid over them: every reading,
OL included, leads to exactly one place, on every plant. Gaps and overlaps come
with an example; what is unused, unreachable or unsafe comes with its place.

Exit codes: 0 clean, 1 problems found, 2 wrong call, 3 internal failure.`,
		Example: `  faultwalk vet
  faultwalk vet my-trees --json`,
		RunE: func(_ *cobra.Command, paths []string) error { return runVet(w, own, paths, asJSON) },
	}
	c.Flags().StringVar(&own, "trees", "", "folder with trees of your own, laid over the embedded ones first")
	c.Flags().BoolVar(&asJSON, "json", false, "write the whole report as JSON")
	return c
}

func runVet(w World, own string, paths []string, asJSON bool) error {
	for _, path := range append([]string{own}, paths...) {
		if info, err := os.Stat(path); path != "" && (err != nil || !info.IsDir()) {
			return usage("vet %s: expected a folder with checks, causes, symptoms … in it", path)
		}
	}
	set, problems := trees.Embedded()
	if err := problems.Err(); err != nil {
		return &exitError{ExitInternal, err}
	}
	if own != "" {
		set, problems = trees.Overlay(set, os.DirFS(own), own)
	}
	i, p := watchInterrupts(), w.progress("proving")
	defer i.stop()
	report, err := await(i, p, func() (vet.Report, error) { return vetted(p, set, problems, paths), nil })
	if err != nil {
		return err
	}
	if err := writeReport(w, report, asJSON); err != nil {
		return err
	}
	if !report.Clean() {
		return &exitError{ExitFindings, nil}
	}
	return nil
}

// vetted proves a set, or each folder laid over it.
func vetted(p *progress, set *trees.Set, problems strict.Problems, paths []string) vet.Report {
	switch {
	case len(problems) > 0:
		return vet.Unread(problems)
	case len(paths) == 0:
		return proved(p, set)
	}
	report := layered(p, set, paths[0])
	for _, path := range paths[1:] {
		report = report.And(layered(p, set, path))
	}
	return report
}

func layered(p *progress, base *trees.Set, path string) vet.Report {
	set, problems := trees.Overlay(base, os.DirFS(path), path)
	if len(problems) > 0 {
		return vet.Unread(problems)
	}
	return proved(p, set)
}

func writeReport(w World, r vet.Report, asJSON bool) error {
	if asJSON {
		return writeJSON(w.Out, r)
	}
	text := r.Text(vetShown)
	if len(r.Problems) > vetShown {
		text += "; --json lists them all"
	}
	return w.print(strings.Split(text, "\n"))
}
