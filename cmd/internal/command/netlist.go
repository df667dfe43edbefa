package command

import (
	"github.com/spf13/cobra"

	"faultwalk/engine/network"
	"faultwalk/engine/plant"
	"faultwalk/measurements"
)

func newNetlist(w World) *cobra.Command {
	var o probeFlags
	c := &cobra.Command{
		Use:   "netlist",
		Short: "Write a simulated plant as a SPICE netlist",
		Long: `Writes the network of a plant as it stands, healthy or with a fault in it, as a
SPICE deck that ngspice runs unchanged (ngspice -b FILE): the dc operating point
and one ac analysis at mains frequency, every point printed. With --from and --to
the meter is in it, so that another simulator can judge what probe says.`,
		Example: `  faultwalk netlist --plant millrace-small --calling hot-water > plant.cir
  faultwalk netlist --plant millrace-large --fault "broken-at-to of switch-wire" --calling hot-water \
      --from diverter-switch-wire --to diverter-neutral --mode low-impedance`,
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			o.given = c.Flags().Changed
			return runNetlist(w, o)
		},
	}
	o.standFlags.bind(c)
	f := c.Flags()
	f.StringVar(&o.from, "from", "", "the point of the meter's first probe; no meter unless given")
	f.StringVar(&o.to, "to", "", "the point of its second probe; true-earth for a rod in the ground")
	f.StringVar(&o.mode, "mode", "high-impedance", "the meter's mode: low-impedance, high-impedance, two-pole-loaded, two-pole-unloaded")
	return c
}

func runNetlist(w World, o probeFlags) error {
	if o.given("mode") && !o.given("from") && !o.given("to") {
		return usage("--mode %s: the meter is between two points; give --from and --to, or leave out --mode", o.mode)
	}
	s, err := o.stood()
	if err != nil {
		return err
	}
	meter, err := o.meter(s)
	if err != nil {
		return err
	}
	n := s.model.New(s.fault, nil).Network(s.standing, meter...)
	return network.Netlist(w.Out, s.state(), n, plant.Frequency)
}

// meter is the branch that a voltmeter is; none where no point is named.
func (o probeFlags) meter(s *stood) ([]network.Branch, error) {
	if o.from == "" && o.to == "" {
		return nil, nil
	}
	o.read, o.given = string(measurements.ACVolts), func(string) bool { return true }
	c, err := o.checked(s)
	if err != nil {
		return nil, err
	}
	specs, _, err := s.specs(c, measurements.DefaultKit(), o.mode)
	if err != nil {
		return nil, err
	}
	b := network.Branch{Name: "meter", To: network.Earth, Y: complex(1/specs[0].InputOhms, 0), G: 1 / specs[0].InputOhms}
	b.From, _ = s.model.Node(c.Probes[0].From.ID)
	if to := c.Probes[0].To; to != nil {
		b.To, _ = s.model.Node(to.ID)
	}
	return []network.Branch{b}, nil
}
