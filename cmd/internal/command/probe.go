package command

import (
	"github.com/spf13/cobra"

	"faultwalk/measurements"
)

// probeFlags say what is read on a simulated plant, or what is listed of it.
type probeFlags struct {
	standFlags
	from, to, mode, read, check            string
	faults, checks, points, levels, asJSON bool
	given                                  func(flag string) bool // on the command line
}

func newProbe(w World) *cobra.Command {
	var o probeFlags
	c := &cobra.Command{
		Use:   "probe",
		Short: "Read a simulated plant with a meter, healthy or with a fault in it",
		Long: `Puts a meter on a simulated plant and says what it reads, what it draws, whether
it moves or trips anything, and why the reading is what it is. The meter is a load,
as it is at the plant, and shows no more digits than it has. --check takes a check
of the trees as it is written there, in the state it asks for; --from and --to name
two points. --points, --checks and --faults list what a plant has.`,
		Example: `  faultwalk probe --plant millrace-large --points
  faultwalk probe --plant millrace-large --calling hot-water --fault "broken-at-to of switch-wire" \
      --from diverter-switch-wire --to diverter-neutral --mode low-impedance
  faultwalk probe --plant millrace-small --fault "motor of cylinder-valve" --check "motor-ohms of cylinder-valve"
  faultwalk probe --plant millrace-small --calling hot-water --from pump-out --read amps --json`,
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			o.given = c.Flags().Changed
			return runProbe(w, o)
		},
	}
	o.standFlags.bind(c)
	f := c.Flags()
	f.StringVar(&o.from, "from", "", "the point of the first probe, or where a clamp or a thermometer goes")
	f.StringVar(&o.to, "to", "", "the point of the second probe; true-earth for a rod in the ground")
	f.StringVar(&o.mode, "mode", "", "the meter's mode: low-impedance, high-impedance, two-pole-loaded, two-pole-unloaded, ohms …")
	f.StringVar(&o.read, "read", string(measurements.ACVolts), "the quantity: ac volts, dc volts, ohms, continuity, insulation, amps, leakage, celsius")
	f.StringVar(&o.check, "check", "", "a check by its instance text, in place of points")
	f.BoolVar(&o.points, "points", false, "list the points of the plant, its calls, devices and plugs")
	f.BoolVar(&o.checks, "checks", false, "list the checks that the trees take on the plant")
	f.BoolVar(&o.faults, "faults", false, "list the faults of the plant")
	f.BoolVar(&o.levels, "levels", false, "write what the healthy plant shows driven and undriven: the file trees/levels/PLANT.yaml")
	f.BoolVar(&o.asJSON, "json", false, "write readings and reasons, or a list, as JSON")
	return c
}

func runProbe(w World, o probeFlags) error {
	if err := o.refused(); err != nil {
		return err
	}
	s, err := o.stood()
	if err != nil {
		return err
	}
	switch {
	case o.faults:
		return writeFaults(w, s.model, o.asJSON)
	case o.points:
		return writePoints(w, s.model.Plant, o.asJSON)
	case o.checks:
		return writeChecks(w, s, o.asJSON)
	case o.levels:
		return writeLevels(w.Out, s)
	}
	c, err := o.checked(s)
	if err != nil {
		return err
	}
	p, err := s.probe(c, measurements.DefaultKit(), o.mode)
	if err != nil {
		return err
	}
	if o.asJSON {
		return writeJSON(w.Out, p)
	}
	return w.print(p.lines(s, c))
}
