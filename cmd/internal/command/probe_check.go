package command

import (
	"maps"
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/spelling"
)

// trueEarth is what --to calls the ground itself, which is no point of a plant.
const trueEarth = "true-earth"

// checked is the check that the flags name, or one made of two points.
func (o probeFlags) checked(s *stood) (*trees.BoundCheck, error) {
	if o.check != "" {
		return o.written(s)
	}
	q, err := o.quantity()
	if err != nil {
		return nil, err
	}
	p := trees.BoundProbe{}
	if p.From, err = point(s.model.Plant, "--from", o.from); err != nil {
		return nil, err
	}
	switch {
	case onePlace(q) && o.to != "":
		return nil, usage("--to %s: %s is read at one place; leave out --to", o.to, q)
	case !onePlace(q) && o.to != trueEarth:
		if p.To, err = point(s.model.Plant, "--to", o.to); err != nil {
			return nil, err
		}
	}
	if p.To == p.From {
		return nil, usage("--to %s: both probes are on one point; expected two", o.to)
	}
	for _, m := range measurements.ModesFor(q) {
		p.Modes = append(p.Modes, string(m))
	}
	return &trees.BoundCheck{Check: &trees.Check{}, Quantity: q, Need: trees.Need{Calls: s.standing.Calls}, Probes: []trees.BoundProbe{p}}, nil
}

// written is a check as the trees have it, with what else is called beside what
// it asks for.
func (o probeFlags) written(s *stood) (*trees.BoundCheck, error) {
	c, problems := s.set.BindCheck(o.check, s.model.Plant)
	if len(problems) > 0 {
		return nil, usage("--check %q: %s%s; faultwalk probe --plant %s --checks lists them", o.check, problems[0].Message,
			s.nearCheck(o.check, problems[0].Message), s.model.Plant.ID)
	}
	if c.Look != "" && o.mode != "" {
		return nil, usage("--mode %s: %q is a look, without a meter; leave out --mode", o.mode, o.check)
	}
	out := *c
	out.Need.Calls = maps.Clone(c.Need.Calls)
	if out.Need.Calls == nil {
		out.Need.Calls = map[string]bool{}
	}
	for call := range s.standing.Calls {
		if on, fixed := c.Need.Calls[call]; fixed && !on {
			return nil, usage("--calling %s: %q is taken without that call; leave it out", call, o.check)
		}
		out.Need.Calls[call] = true
	}
	return &out, nil
}

// nearCheck names the check of the trees whose text is nearest, unless what is
// wrong with it says so already.
func (s *stood) nearCheck(id, wrong string) string {
	checks, problems := s.set.ChecksOn(s.model.Plant)
	if len(problems) > 0 || strings.Contains(wrong, "did you mean") {
		return ""
	}
	return spelling.DidYouMean(id, idsOf(checks, func(c *trees.BoundCheck) string { return c.ID }))
}

// quantity is what is read: as --read says, or else what only the mode can read.
func (o probeFlags) quantity() (measurements.Quantity, error) {
	var known []string
	for _, q := range measurements.Quantities() {
		known = append(known, string(q))
		if !o.given("read") && len(modeNamed(o.mode, q)) > 0 {
			return q, nil
		}
	}
	read := strings.ReplaceAll(o.read, "-", " ")
	return measurements.Quantity(read), oneOf("--read", read, known)
}

// onePlace says whether a quantity is read at one place and not between two.
func onePlace(q measurements.Quantity) bool {
	return q == measurements.Amps || q == measurements.Leakage || q == measurements.Celsius
}

func point(p *trees.Plant, flag, id string) (*trees.Point, error) {
	if pt := p.Point(id); pt != nil {
		return pt, nil
	}
	if id == "" {
		return nil, usage("%s: which point? faultwalk probe --plant %s --points lists them", flag, p.ID)
	}
	return nil, usage("%s %q: %s has no such point%s; faultwalk probe --plant %s --points lists them", flag, id, p.ID, nearPoint(p, id), p.ID)
}

// nearPoint names the points that carry a name as their marking, or the point
// whose id is nearest.
func nearPoint(p *trees.Plant, name string) string {
	var known, marked []string
	for _, pt := range p.Points {
		known = append(known, pt.ID)
		if strings.EqualFold(pt.Marking, name) {
			marked = append(marked, pt.ID)
		}
	}
	if len(marked) > 0 {
		return "; so marked are " + strings.Join(marked, ", ")
	}
	return spelling.DidYouMean(name, known)
}

// specs chooses the instrument and the mode of each probe: the mode asked for,
// else the first of the check that the kit has.
func (s *stood) specs(c *trees.BoundCheck, kit measurements.Kit, mode string) (specs []measurements.ModeSpec, meters []measurements.Instrument, err error) {
	for _, p := range c.Probes {
		modes := p.Modes
		if mode != "" {
			modes = modeNamed(mode, c.Quantity)
		}
		meter, spec, ok := measurements.Instrument{}, measurements.ModeSpec{}, false
		for _, m := range modes {
			if meter, spec, ok = kit.Find(measurements.Mode(m), c.Quantity); ok {
				break
			}
		}
		if !ok {
			return nil, nil, usage("--mode %s: no instrument reads %s so; expected one of %s%s", mode, c.Quantity, strings.Join(p.Modes, ", "),
				spelling.DidYouMean(strings.ReplaceAll(mode, "-", " "), p.Modes))
		}
		specs, meters = append(specs, spec), append(meters, meter)
	}
	return specs, meters, nil
}

// modeNamed finds the mode of a quantity that is meant, hyphens and spaces alike.
func modeNamed(word string, q measurements.Quantity) []string {
	fold := func(s string) string { return strings.ReplaceAll(s, " ", "-") }
	for _, m := range measurements.ModesFor(q) {
		if word != "" && fold(string(m)) == fold(word) {
			return []string{string(m)}
		}
	}
	return nil
}
