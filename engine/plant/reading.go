package plant

import (
	"fmt"

	"faultwalk/engine/network"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// Result is what a check gives on a simulated plant.
type Result struct {
	Values  []float64 // of each probe, in the unit of the quantity; +Inf where nothing conducts
	Answer  string    // of a look; empty if the plant shows nothing it could say
	Moving  bool      // the plant is unsteady and the reading goes with it
	Moved   []string  // the variables that the meter itself changes first, empty where it changes nothing
	Tripped []string  // the protection that acts because of the meter
	Amps    []float64 // what the meter drew, A
	Live    bool      // volts stood where ohms were read
	LiftsTo float64   // V, the most any case stands at because of the meter; 0 where it lifts none
}

// How is how a check is taken: the standing of the plant and the mode of each
// probe.
type How struct {
	Specs     []measurements.ModeSpec
	Off       map[string]bool
	Unplugged []string
}

// Answer takes a check on the plant as it stands: the meter is a load, and the
// plant settles again with it in place. A state other than the check's calls,
// what is off and what is parted, is not looked at.
func (s *Subject) Answer(c *trees.BoundCheck, how How) (Result, error) {
	st := Standing{Calls: c.Need.Calls, Off: how.Off, Unplugged: append(append([]string(nil), c.Need.Unplugged...), how.Unplugged...), Lifted: c.Lifted, Worked: workedIn(c)}
	if c.Look != "" {
		s.bring(st)
		answer, err := s.look(c)
		return Result{Answer: answer, Moving: len(s.visits) > 0}, err
	}
	var r Result
	for i, p := range c.Probes {
		spec := measurements.ModeSpec{}
		if i < len(how.Specs) {
			spec = how.Specs[i]
		}
		s.stand(st)
		if err := s.probe(&r, c, p, spec); err != nil {
			return r, fmt.Errorf("%s: %w", c.ID, err)
		}
	}
	return r, nil
}

// probe takes one reading.
func (s *Subject) probe(r *Result, c *trees.BoundCheck, p trees.BoundProbe, spec measurements.ModeSpec) error {
	if c.Quantity == measurements.Celsius {
		v, err := s.thermometer(p)
		r.Values, r.Amps = append(r.Values, v), append(r.Amps, 0)
		return err
	}
	if c.Quantity == measurements.Amps || c.Quantity == measurements.Leakage {
		return s.clamp(r, c.Quantity, p)
	}
	from, err := s.m.side(p.From, p.FromSide)
	if err != nil {
		return err
	}
	to := network.Earth
	if p.To != nil {
		if to, err = s.m.side(p.To, p.ToSide); err != nil {
			return err
		}
	}
	switch c.Quantity {
	case measurements.ACVolts, measurements.DCVolts:
		s.volts(r, c.Quantity == measurements.DCVolts, from, to, spec.InputOhms)
	default:
		return s.ohms(r, c, p, from, to)
	}
	return nil
}
