package command

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"faultwalk/engine/rehearse"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// rehearseFlags say what is rehearsed and what is shown of it.
type rehearseFlags struct {
	plants, symptoms, show     []string
	fault, own                 string
	everyone, forgotten, sweep bool
	noise                      int
	seed                       uint64
	asJSON, all, moved         bool
	given                      func(flag string) bool // on the command line
}

func newRehearse(w World) *cobra.Command {
	var o rehearseFlags
	c := &cobra.Command{
		Use:   "rehearse",
		Short: "Walk every tree against every simulated fault",
		Long: `Puts each fault into the model of each plant, lets the plant answer the checks of
every tree whose sign it shows, and says where the walk ends: at the true cause,
at a group that nothing could divide, at somebody else, or wrong. Walked by an
electrically competent person, certified for unvented hot water, with every
instrument.

The figures come first, then each wrong or unsafe walk step by step: the fault,
where it should have ended, and the branch of the trees that ended it. --show lists
the walks with other verdicts the same way, --moved those in which the meter moved
the plant. With --json they choose the cases that are written.

Exit codes: 0 every gate holds, 1 one is broken, 2 wrong call, or a fault that no
tree walks, 3 internal failure, 130 interrupted. No walk may be unsafe; none may be
wrong, but for 0.3 % under noise and 2 % in the sweep.`,
		Example: `  faultwalk rehearse
  faultwalk rehearse --plant millrace-small --show referred,unresolved
  faultwalk rehearse --fault "motor of diverter"
  faultwalk rehearse --noise 20 --seed 1 --show unresolved --json`,
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			o.given = c.Flags().Changed
			return runRehearse(w, o)
		},
	}
	o.bind(c)
	return c
}

func (o *rehearseFlags) bind(c *cobra.Command) {
	f := c.Flags()
	f.StringSliceVar(&o.plants, "plant", nil, "plants to rehearse; all of them unless named")
	f.StringSliceVar(&o.symptoms, "symptom", nil, "trees to show the walks of; all of them unless named")
	f.StringVar(&o.fault, "fault", "", "one fault, shown step by step")
	f.BoolVar(&o.everyone, "everyone", false, "as each other kind of hands too, at the plant and by phone")
	f.BoolVar(&o.forgotten, "forgotten", false, "with each supply in turn left on by mistake")
	f.IntVar(&o.noise, "noise", 0, "so many draws of meter error, part tolerance and supply, in place of nominal values")
	f.Uint64Var(&o.seed, "seed", 1, "where the draws of --noise and --sweep begin")
	f.BoolVar(&o.sweep, "sweep", false, "every core made resistive or open at both ends and in the middle, in place of the written faults")
	f.StringSliceVar(&o.show, "show", guilty, "list the walks with these verdicts, with their steps: "+strings.Join(verdictNames(), ", "))
	f.BoolVar(&o.moved, "moved", false, "list the walks in which the meter moved the plant, and what it moved")
	f.BoolVar(&o.all, "all", false, "list every walk, and what no walk reached; with --json the steps of every walk")
	f.StringVar(&o.own, "trees", "", "folder with trees of your own, laid over the embedded ones")
	f.BoolVar(&o.asJSON, "json", false, "write figures and cases as JSON")
}

func runRehearse(w World, o rehearseFlags) error {
	set, err := embeddedOr(o.own)
	if err != nil {
		return err
	}
	if err := o.check(set); err != nil {
		return err
	}
	i, p, began := watchInterrupts(), w.progress("walking fault"), w.Now()
	defer i.stop()
	report, err := await(i, p, func() (*rehearse.Report, error) { return rehearsed(set, o.options(p)) })
	if err != nil {
		return err
	}
	if o.fault != "" && !report.Knows(o.fault) {
		return usage("--fault %q: no plant rehearsed has it%s; faultwalk probe --plant PLANT --faults lists them", o.fault, nearFault(report.FaultIDs, o.fault))
	}
	if err := o.write(w, report, w.Now().Sub(began).Seconds()); err != nil {
		return err
	}
	switch {
	case o.fault != "" && len(report.Cases) == 0:
		return o.unwalked(report)
	case !report.Holds():
		return &exitError{ExitFindings, nil}
	}
	return nil
}

// unwalked is a call for a fault that no tree walks; where the output is for
// programs it says why, else the output has said so.
func (o rehearseFlags) unwalked(r *rehearse.Report) error {
	if !o.asJSON {
		return &exitError{ExitUsage, nil}
	}
	return usage("--fault %q: no walk: %s", o.fault, strings.Join(r.Unwalked(o.fault), "; "))
}

// rehearsed is a rehearsal; what the trees or the models lack for one is a finding.
func rehearsed(set *trees.Set, o rehearse.Options) (*rehearse.Report, error) {
	r, err := rehearse.Run(set, o)
	if err != nil {
		return nil, found(err)
	}
	return r, nil
}

// embeddedOr are the embedded trees, those of a folder laid over them if one is named.
func embeddedOr(own string) (*trees.Set, error) {
	if own != "" {
		return withOwn(own)
	}
	set, problems := trees.Embedded()
	if err := problems.Err(); err != nil {
		return nil, &exitError{ExitInternal, err}
	}
	return set, nil
}

func (o rehearseFlags) options(p *progress) rehearse.Options {
	kit := measurements.DefaultKit()
	out := rehearse.Options{Plants: o.plants, Symptoms: o.symptoms, Fault: o.fault, Kit: kit, Forgotten: o.forgotten,
		Noise: o.noise, Seed: o.seed, Sweep: o.sweep, Trace: o.traced, Progress: p.count}
	if o.everyone {
		out.Persons = append([]rehearse.Person{rehearse.Engineer(kit)}, rehearse.Everyone(kit)...)
	}
	return out
}

func (o rehearseFlags) write(w World, r *rehearse.Report, seconds float64) error {
	if o.asJSON {
		listed := o.listed
		if !o.given("show") && !o.moved {
			listed = nil
		}
		return writeJSON(w.Out, r.Summary(seconds, listed, o.traced))
	}
	if o.fault != "" {
		return w.print(o.oneFault(r))
	}
	text := r.Text(rehearse.Layout{Lists: o.all, Narrow: w.isNarrow()})
	lines := append(strings.Split(strings.TrimRight(text, "\n"), "\n"), o.cases(r)...)
	if err := w.print(lines); err != nil {
		return err
	}
	_, err := fmt.Fprintf(w.Err, "%.2f s\n", seconds)
	return err
}
