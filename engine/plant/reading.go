package plant

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"

	"faultwalk/engine/network"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// Result is what a check gives on a simulated plant.
type Result struct {
	Values  []float64 // of each probe, in the unit of the quantity; +Inf where nothing conducts
	Answer  string    // of a look; empty if the plant shows nothing it could say
	Moving  bool      // the plant is unsteady and the reading goes with it
	Moved   []string  // what the meter itself changed on the plant
	Amps    []float64 // what the meter drew, A
	Live    bool      // volts stood where ohms were read
	LiftsTo float64   // V, the most any case stands at because of the meter
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
	st := Standing{Calls: c.Need.Calls, Off: how.Off, Unplugged: append(append([]string(nil), c.Need.Unplugged...), how.Unplugged...), Lifted: c.Lifted}
	if c.Look != "" {
		s.stand(st)
		answer, err := s.look(c)
		return Result{Answer: answer, Moving: len(s.visits) > 0}, err
	}
	var r Result
	for i, p := range c.Probes {
		spec := measurements.ModeSpec{}
		if i < len(how.Specs) {
			spec = how.Specs[i]
		}
		at := s.stand(st)
		if err := s.probe(&r, c, p, spec, at); err != nil {
			return r, fmt.Errorf("%s: %w", c.ID, err)
		}
	}
	return r, nil
}

// probe takes one reading.
func (s *Subject) probe(r *Result, c *trees.BoundCheck, p trees.BoundProbe, spec measurements.ModeSpec, at *state) error {
	if c.Quantity == measurements.Celsius {
		v, err := s.thermometer(p.From)
		r.Values, r.Amps = append(r.Values, v), append(r.Amps, 0)
		return err
	}
	from, err := s.m.side(p.From, p.FromSide)
	if err != nil {
		return err
	}
	if c.Quantity == measurements.Amps || c.Quantity == measurements.Leakage {
		r.Values, r.Amps = append(r.Values, s.clamp(c.Quantity, p)), append(r.Amps, 0)
		return nil
	}
	to := network.Earth
	if p.To != nil {
		if to, err = s.m.side(p.To, p.ToSide); err != nil {
			return err
		}
	}
	switch c.Quantity {
	case measurements.ACVolts, measurements.DCVolts:
		s.volts(r, c.Quantity == measurements.DCVolts, from, to, spec.InputOhms, at)
	default:
		return s.ohms(r, p, from, to)
	}
	return nil
}

// side is the node of a probe: on the part's or the core's own end where it was
// written so, else the point of the wiring.
func (m *Model) side(p *trees.Point, side string) (network.Node, error) {
	name := p.ID
	if part := m.Plant.Part(side); part != nil {
		for _, t := range sortedKeys(part.Terminals) {
			if part.Terminals[t] == p.ID {
				name = side + "." + t
			}
		}
	} else if side != "" {
		for _, l := range m.Plant.Links {
			if l.ID == side && l.From == p.ID {
				name = side + ":from"
			} else if l.ID == side && l.To == p.ID {
				name = side + ":to"
			}
		}
	}
	if n, ok := m.nodeOf(name); ok {
		return n, nil
	}
	return 0, fmt.Errorf("nothing is joined to %q, so nothing can be read there", name)
}

// thermometer is the temperature at a place: that of the sensor that sits there.
func (s *Subject) thermometer(at *trees.Point) (float64, error) {
	for _, p := range s.m.Plant.Parts {
		if p.Terminals["pocket"] == at.ID && p.Follows.Value != "" {
			return s.m.follows[p.ID].Func()(s), nil
		}
	}
	return 0, fmt.Errorf("no sensor sits at %q that says what it feels", at.ID)
}

// clamp reads the current of the core or the part at a point, or for a leakage
// clamp what its supply does not carry back.
func (s *Subject) clamp(q measurements.Quantity, p trees.BoundProbe) float64 {
	if q == measurements.Leakage {
		for _, n := range s.m.supplies {
			if slices.Contains(s.m.Plant.FedBy(p.From.ID), n.of.ID) {
				return s.residual([]supply{n})
			}
		}
	}
	for _, l := range s.m.Plant.Links {
		for end, at := range map[string]string{"@from": l.From, "@to": l.To} {
			if i, ok := s.m.branchAt[l.ID+end]; ok && at == p.From.ID && (p.FromSide == "" || p.FromSide == l.ID) {
				return s.amps(i)
			}
		}
	}
	for _, part := range s.m.Plant.Parts {
		for t, at := range part.Terminals {
			if i, ok := s.m.branchAt[part.ID+"@"+t]; ok && at == p.From.ID {
				return s.amps(i)
			}
		}
	}
	return 0
}

// volts reads between two nodes with a meter of so many ohms.
func (s *Subject) volts(r *Result, dc bool, a, b network.Node, input float64, at *state) {
	if len(s.visits) > 0 {
		s.unsteadyVolts(r, dc, a, b, input)
		return
	}
	y := 0.0
	if input > 0 {
		y = 1 / input
	}
	view := s.solver.Load(a, b, complex(y, 0), y)
	ac, direct := view.Drawn()
	amps := max(cmplx.Abs(ac), math.Abs(direct))
	value := reads(view, dc, a, b)
	if moved := s.movedBy(view, amps); moved != nil {
		r.Moved = append(r.Moved, moved...)
		value = s.metered(r, dc, a, b, y)
	} else {
		r.LiftsTo = max(r.LiftsTo, s.lifted(view, amps))
	}
	r.Values, r.Amps = append(r.Values, value), append(r.Amps, amps)
}

func reads(n reader, dc bool, a, b network.Node) float64 {
	if dc {
		return n.VoltsDC(a, b)
	}
	return n.Volts(a, b)
}

// least is the current of a meter, in A, below which it moves nothing: a tenth
// of what any coil or input here takes.
const least = 20e-6

// movedBy says what would change with the meter in place; nil for nothing.
func (s *Subject) movedBy(view network.View, amps float64) []string {
	if amps < least {
		return nil
	}
	s.meter = view
	changes := s.step()
	s.meter = s.solver
	if !changes {
		return nil
	}
	var out []string
	for i, v := range s.m.vars {
		if s.next[i] != s.v[i] {
			out = append(out, v.name)
		}
	}
	return out
}

// metered settles the plant with the meter as a branch of it, and reads there.
// The plant itself is left as it was: the meter comes off again.
func (s *Subject) metered(r *Result, dc bool, a, b network.Node, y float64) float64 {
	t := s.with(network.Branch{Name: "meter", From: a, To: b, Y: complex(y, 0), G: y})
	t.settle()
	if len(t.visits) > 0 {
		r.Moving = true
	}
	for i := range s.m.trips {
		for _, at := range s.m.trips[i].set {
			if t.v[at] != s.v[at] {
				r.Moved = append(r.Moved, s.m.trips[i].name)
			}
		}
	}
	r.LiftsTo = max(r.LiftsTo, t.cases())
	return reads(t.solver, dc, a, b)
}

// with is the plant with one more branch, in the same state.
func (s *Subject) with(extra network.Branch) *Subject {
	t := *s
	t.net = &network.Network{Names: s.net.Names, Branches: append([]network.Branch(nil), s.net.Branches...)}
	for i := range t.net.Branches {
		b := &t.net.Branches[i]
		b.Y, b.E, b.G, b.EDC = s.solver.Value(i)
	}
	t.net.Branches = append(t.net.Branches, extra)
	t.solver = network.NewSolver(t.net)
	t.meter = t.solver
	t.v, t.next = append([]float64(nil), s.v...), make([]float64, len(s.v))
	t.trail, t.settled, t.at, t.visits = nil, map[string]*state{}, nil, nil
	return &t
}

// unsteadyVolts reads a plant that goes round: the reading moves where its
// states differ, and the highest is given.
func (s *Subject) unsteadyVolts(r *Result, dc bool, a, b network.Node, input float64) {
	y := 0.0
	if input > 0 {
		y = 1 / input
	}
	low, high, drawn := math.Inf(1), math.Inf(-1), 0.0
	visits := s.visits
	for _, v := range visits {
		copy(s.v, v)
		s.solve()
		view := s.solver.Load(a, b, complex(y, 0), y)
		x := reads(view, dc, a, b)
		ac, _ := view.Drawn()
		low, high, drawn = min(low, x), max(high, x), max(drawn, cmplx.Abs(ac))
	}
	if high-low > 1+0.02*math.Abs(high) {
		r.Moving = true
	}
	s.load(s.at)
	r.Values, r.Amps = append(r.Values, high), append(r.Amps, drawn)
}

// touchVolts is the voltage, in V, above which ohms are not read: the tester
// warns from there on.
const touchVolts = 5

// ohms reads resistance, continuity or insulation by a current of its own.
func (s *Subject) ohms(r *Result, p trees.BoundProbe, a, b network.Node) error {
	of := s
	if p.Joined != nil {
		j, err := s.m.side(p.Joined, p.JoinedSide)
		if err != nil {
			return err
		}
		of = s.with(network.Branch{Name: "joined", From: a, To: j, Y: 1000, G: 1000})
		of.solver.Solve()
	}
	view := of.solver.Load(a, b, 1/complex(300e3, 0), 1/300e3)
	if view.Volts(a, b) > touchVolts || view.Volts(a, network.Earth) > 50 || view.Volts(b, network.Earth) > 50 {
		r.Live = true
	}
	_, ohms := of.solver.Seen(a, b)
	r.Values, r.Amps = append(r.Values, ohms), append(r.Amps, 0)
	return nil
}
