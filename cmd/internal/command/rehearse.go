package command

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

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
	noise, most                int
	seed                       uint64
	asJSON, all                bool
}

// rehearseShown is how many walks are listed where nobody asked for a list.
const rehearseShown = 10

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

A fault that is named is shown step by step. Exit codes: 0 every gate holds, 1 one
is broken, 2 wrong call, 3 internal failure. No walk may be unsafe; none may be
wrong, but for 0.3 % under noise and 2 % in the sweep.`,
		Example: `  faultwalk rehearse
  faultwalk rehearse --plant millrace-small --show wrong,unresolved
  faultwalk rehearse --fault "motor of diverter"
  faultwalk rehearse --noise 20 --seed 1 --json`,
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			if !c.Flags().Changed("show") {
				o.most = rehearseShown
			}
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
	f.StringSliceVar(&o.show, "show", []string{"wrong", "unsafe"}, "list the walks with these verdicts, with their steps: "+strings.Join(verdictNames(), ", "))
	f.BoolVar(&o.all, "all", false, "list every walk, and what no walk reached")
	f.StringVar(&o.own, "trees", "", "folder with trees of your own, laid over the embedded ones")
	f.BoolVar(&o.asJSON, "json", false, "write figures and cases as JSON")
}

// verdictNames are the words of --show.
func verdictNames() []string {
	var out []string
	for _, v := range rehearse.Verdicts() {
		out = append(out, string(v))
	}
	return out
}

func runRehearse(w World, o rehearseFlags) error {
	set, err := o.set()
	if err != nil {
		return err
	}
	if err := o.check(set); err != nil {
		return err
	}
	began := w.Now()
	report, err := rehearse.Run(set, o.options(w))
	if err != nil {
		return found(err)
	}
	if o.fault != "" && !report.Knows(o.fault) {
		return usage("--fault %q: no plant rehearsed has it; %s", o.fault, nearFault(report, o.fault))
	}
	took := w.Now().Sub(began)
	if err := o.write(w.Out, report, took); err != nil {
		return err
	}
	if !report.Holds() {
		return &exitError{ExitFindings, nil}
	}
	return nil
}

func (o rehearseFlags) set() (*trees.Set, error) {
	if o.own != "" {
		return withOwn(o.own)
	}
	set, problems := trees.Embedded()
	if err := problems.Err(); err != nil {
		return nil, &exitError{ExitInternal, err}
	}
	return set, nil
}

// check refuses names that the trees do not have.
func (o rehearseFlags) check(set *trees.Set) error {
	for _, p := range o.plants {
		if set.Plants[p] == nil {
			return usage("--plant %s: expected one of %s", p, list(set.Plants))
		}
	}
	for _, s := range o.symptoms {
		if set.Symptoms[s] == nil {
			return usage("--symptom %s: expected one of %s", s, list(set.Symptoms))
		}
	}
	for _, v := range o.show {
		if !slices.Contains(verdictNames(), v) {
			return usage("--show %s: expected one of %s", v, strings.Join(verdictNames(), ", "))
		}
	}
	switch {
	case o.noise < 0:
		return usage("--noise %d: expected how many draws, 20 for instance", o.noise)
	case o.sweep && o.noise > 0:
		return usage("--sweep draws by itself; leave out --noise")
	}
	return nil
}

func (o rehearseFlags) options(w World) rehearse.Options {
	kit := measurements.DefaultKit()
	out := rehearse.Options{Plants: o.plants, Symptoms: o.symptoms, Fault: o.fault, Kit: kit, Forgotten: o.forgotten,
		Noise: o.noise, Seed: o.seed, Sweep: o.sweep, Trace: o.fault != "" || o.all, Progress: progressOf(w.Err, w.Env, "walking fault")}
	if o.everyone {
		out.Persons = append([]rehearse.Person{rehearse.Engineer(kit)}, rehearse.Everyone(kit)...)
	}
	return out
}

func (o rehearseFlags) write(to io.Writer, r *rehearse.Report, took time.Duration) error {
	if o.asJSON {
		return writeJSON(to, r.Summary(took.Seconds(), o.fault != ""))
	}
	lines := o.lines(r)
	if o.fault == "" {
		lines = append(lines, r.Text(o.all)+fmt.Sprintf("%.2f s", took.Seconds()))
	}
	return writeLines(to, lines)
}

// lines are the walks that are listed: with their steps, unless all are.
func (o rehearseFlags) lines(r *rehearse.Report) []string {
	var lines []string
	left := 0
	for _, c := range r.Cases {
		switch {
		case o.fault == "" && !o.all && !slices.Contains(o.show, string(c.Verdict)):
		case o.most > 0 && len(lines) == o.most && o.fault == "" && !o.all:
			left++
		default:
			lines = append(lines, strings.TrimRight(c.Text(o.fault != "" || !o.all), "\n"))
		}
	}
	if left > 0 {
		lines = append(lines, fmt.Sprintf("and %d more; --show %s lists them", left, strings.Join(o.show, ",")))
	}
	if len(lines) > 0 && o.fault == "" {
		lines = append(lines, "")
	}
	return lines
}

// nearFault names faults whose words are in what was asked for.
func nearFault(r *rehearse.Report, asked string) string {
	const most = 8
	var near []string
	for _, id := range r.FaultIDs {
		for _, word := range strings.Fields(asked) {
			if word != "of" && strings.Contains(id, word) && !slices.Contains(near, id) && len(near) < most {
				near = append(near, id)
			}
		}
	}
	if len(near) == 0 {
		return "faultwalk rehearse --all lists the faults"
	}
	return "near it: " + strings.Join(near, ", ")
}
