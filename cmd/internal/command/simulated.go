package command

import (
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"faultwalk/engine/plant"
	"faultwalk/trees"
)

// standFlags say which simulated plant is meant, with what fault in it, and how
// it stands.
type standFlags struct {
	plant, fault, own       string
	calling, off, unplugged []string
}

func (o *standFlags) bind(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&o.plant, "plant", "", "the plant, as faultwalk callout lists them")
	f.StringVar(&o.fault, "fault", "", "the fault in it, as faultwalk probe --faults lists them; healthy unless named")
	f.StringSliceVar(&o.calling, "calling", nil, "what is called: heat, hot-water, booster")
	f.StringSliceVar(&o.off, "off", nil, "devices that are switched off")
	f.StringSliceVar(&o.unplugged, "unplugged", nil, "plugs that are parted")
	f.StringVar(&o.own, "trees", "", "folder with trees of your own, laid over the embedded ones")
}

// stood is a simulated plant with its fault, and how it stands.
type stood struct {
	set      *trees.Set
	model    *plant.Model
	fault    *plant.Fault // nil: healthy
	standing plant.Standing
}

func (o *standFlags) stood() (*stood, error) {
	set, err := embeddedOr(o.own)
	if err != nil {
		return nil, err
	}
	if err := oneOf("--plant", o.plant, slices.Sorted(maps.Keys(set.Plants))); err != nil {
		return nil, err
	}
	p, problems := set.Compose(o.plant)
	if err := problems.Err(); err != nil {
		return nil, found(err)
	}
	m, problems := plant.Compile(set, p)
	if err := problems.Err(); err != nil {
		return nil, found(err)
	}
	s := &stood{set: set, model: m, standing: plant.Standing{Calls: map[string]bool{}, Off: map[string]bool{}, Unplugged: o.unplugged}}
	return s, o.fill(s)
}

// fill looks up the names of the flags.
func (o *standFlags) fill(s *stood) error {
	p := s.model.Plant
	if s.fault = s.model.Fault(o.fault); o.fault != "" && s.fault == nil {
		return usage("--fault %q: %s has no such fault%s; faultwalk probe --plant %s --faults lists them", o.fault, p.ID,
			nearFault(faultIDs(s.model), o.fault), p.ID)
	}
	for _, c := range o.calling {
		if err := oneOf("--calling", c, idsOf(p.Calls, func(c *trees.Call) string { return c.ID })); err != nil {
			return err
		}
		s.standing.Calls[c] = true
	}
	for _, d := range o.off {
		if err := oneOf("--off", d, idsOf(p.Devices, func(d *trees.Device) string { return d.ID })); err != nil {
			return err
		}
		s.standing.Off[d] = true
	}
	for _, u := range o.unplugged {
		if err := oneOf("--unplugged", u, idsOf(p.Plugs, func(u *trees.Plug) string { return u.ID })); err != nil {
			return err
		}
	}
	return nil
}

// state writes what the plant is and how it stands, a line.
func (s *stood) state() string {
	words := []string{s.model.Plant.ID}
	if s.fault != nil {
		words = append(words, s.fault.Words)
	} else {
		words = append(words, "healthy")
	}
	for _, c := range s.model.Plant.Calls {
		if s.standing.Calls[c.ID] {
			words = append(words, c.Words+" called")
		}
	}
	for _, d := range s.model.Plant.Devices {
		if s.standing.Off[d.ID] {
			words = append(words, d.Words+" off")
		}
	}
	for _, u := range s.standing.Unplugged {
		words = append(words, s.model.Plant.Plug(u).Words+" parted")
	}
	return strings.Join(words, ", ")
}

func faultIDs(m *plant.Model) (out []string) {
	for _, f := range m.Faults() {
		out = append(out, f.ID)
	}
	return out
}

// idsOf lists the ids of things, in their order.
func idsOf[T any](all []T, id func(T) string) (out []string) {
	for _, x := range all {
		out = append(out, id(x))
	}
	return out
}
