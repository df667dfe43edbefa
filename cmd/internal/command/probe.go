package command

import (
	"fmt"
	"io"
	"math"
	"math/cmplx"
	"strings"

	"github.com/spf13/cobra"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/spelling"
)

// trueEarth is what --to calls the ground itself, which is no point of a plant.
const trueEarth = "true-earth"

// probeFlags say what is read on a simulated plant.
type probeFlags struct {
	standFlags
	from, to, mode, read, check string
	faults, levels, asJSON      bool
}

func newProbe(w World) *cobra.Command {
	var o probeFlags
	c := &cobra.Command{
		Use:   "probe",
		Short: "Read a simulated plant with a meter, healthy or with a fault in it",
		Long: `Puts a meter on a simulated plant and says what it reads, what it draws, whether
it moves anything, and why the reading is what it is. The meter is a load, as it
is at the plant. --check takes a check of the trees as it is written there, or
--from and --to name two points.`,
		Example: `  faultwalk probe --plant millrace-large --faults
  faultwalk probe --plant millrace-large --calling hot-water --fault "broken-at-to of switch-wire" \
      --from diverter-switch-wire --to diverter-neutral --mode low-impedance
  faultwalk probe --plant millrace-small --fault "motor of cylinder-valve" --check "motor-ohms of cylinder-valve"`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return runProbe(w.Out, o) },
	}
	o.standFlags.bind(c)
	f := c.Flags()
	f.StringVar(&o.from, "from", "", "the point of the first probe")
	f.StringVar(&o.to, "to", "", "the point of the second probe; true-earth for a rod in the ground")
	f.StringVar(&o.mode, "mode", "", "the meter's mode: low-impedance, high-impedance, two-pole-loaded, two-pole-unloaded, ohms …")
	f.StringVar(&o.read, "read", "ac volts", "the quantity: ac volts, dc volts, ohms, continuity, insulation, amps, leakage")
	f.StringVar(&o.check, "check", "", "a check by its instance text, in place of points")
	f.BoolVar(&o.faults, "faults", false, "list the faults of the plant")
	f.BoolVar(&o.levels, "levels", false, "write what the healthy plant shows driven and undriven: the file trees/levels/PLANT.yaml")
	f.BoolVar(&o.asJSON, "json", false, "write readings and reasons as JSON")
	return c
}

// probed is one reading, as JSON has it. Values are in the unit of the
// quantity; an infinite one is null and over range.
type probed struct {
	Plant   string        `json:"plant"`
	Fault   string        `json:"fault,omitempty"`
	Check   string        `json:"check,omitempty"`
	Answer  string        `json:"answer,omitempty"`
	Read    []probedValue `json:"read,omitempty"`
	Moving  bool          `json:"moving,omitempty"`
	Moved   []string      `json:"moved,omitempty"`
	CaseAt  float64       `json:"case_volts,omitempty"`
	Live    bool          `json:"live,omitempty"`
	Healthy []string      `json:"healthy,omitempty"`
}

type probedValue struct {
	From      string   `json:"from"`
	To        string   `json:"to,omitempty"`
	Mode      string   `json:"mode"`
	Value     *float64 `json:"value"`
	OverRange bool     `json:"over_range,omitempty"`
	Unit      string   `json:"unit"`
	Amps      float64  `json:"meter_amps"`
	Open      *float64 `json:"without_meter,omitempty"`
	Behind    *float64 `json:"behind_ohms,omitempty"`
	Why       []string `json:"why,omitempty"`
	shown     string
}

func runProbe(to io.Writer, o probeFlags) error {
	s, err := o.stood()
	if err != nil {
		return err
	}
	if o.faults {
		return listFaults(to, s.model, o.asJSON)
	}
	if o.levels {
		return writeLevels(to, s)
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
		return writeJSON(to, p)
	}
	return writeLines(to, p.lines(s, c))
}

// checked is the check that the flags name, or one made of two points.
func (o probeFlags) checked(s *stood) (*trees.BoundCheck, error) {
	if o.check != "" {
		if o.from != "" || o.to != "" {
			return nil, usage("--check says itself where it is read; leave out --from and --to")
		}
		c, problems := s.set.BindCheck(o.check, s.model.Plant)
		if len(problems) > 0 {
			return nil, usage("--check %q: %s", o.check, problems[0].Message)
		}
		return c, nil
	}
	q := measurements.Quantity(o.read)
	if q.Unit() == "" {
		return nil, usage("--read %q: expected ac volts, dc volts, ohms, continuity, insulation, amps or leakage", o.read)
	}
	from, err := point(s.model.Plant, "--from", o.from)
	if err != nil {
		return nil, err
	}
	c := &trees.BoundCheck{Check: &trees.Check{}, Quantity: q, Need: trees.Need{Calls: s.standing.Calls}}
	p := trees.BoundProbe{From: from}
	if q != measurements.Amps && q != measurements.Leakage && o.to != trueEarth {
		if p.To, err = point(s.model.Plant, "--to", o.to); err != nil {
			return nil, err
		}
	}
	for _, m := range measurements.ModesFor(q) {
		p.Modes = append(p.Modes, string(m))
	}
	c.Probes = []trees.BoundProbe{p}
	return c, nil
}

func point(p *trees.Plant, flag, id string) (*trees.Point, error) {
	if pt := p.Point(id); pt != nil {
		return pt, nil
	}
	var known []string
	for _, pt := range p.Points {
		known = append(known, pt.ID)
	}
	if id == "" {
		return nil, usage("%s: which point? %s has %s", flag, p.ID, strings.Join(known, ", "))
	}
	return nil, usage("%s %q: %s has no such point%s", flag, id, p.ID, spelling.DidYouMean(id, known))
}

// probe takes the check on the plant as it stands.
func (s *stood) probe(c *trees.BoundCheck, kit measurements.Kit, mode string) (*probed, error) {
	specs, err := s.specs(c, kit, mode)
	if err != nil {
		return nil, err
	}
	if c.ID != "" {
		s.takes(c)
	}
	how := plant.How{Specs: specs, Off: s.standing.Off, Unplugged: s.standing.Unplugged}
	sub := s.model.New(s.fault, nil)
	r, err := sub.Answer(c, how)
	if err != nil {
		return nil, found(err)
	}
	out := &probed{Plant: s.model.Plant.ID, Check: c.ID, Answer: answerWords(c, r.Answer), Moving: r.Moving, Moved: r.Moved, Live: r.Live, CaseAt: r.LiftsTo}
	if s.fault != nil {
		out.Fault = s.fault.ID
		if well, err := s.model.New(nil, nil).Answer(c, how); err == nil {
			out.Healthy = shownValues(c, specs, well)
		}
	}
	shown := shownValues(c, specs, r)
	for i, p := range c.Probes {
		v := probedValue{From: p.From.ID, Mode: string(specs[i].Mode), Unit: c.Quantity.Unit(), Amps: r.Amps[i], shown: shown[i]}
		if p.To != nil {
			v.To = p.To.ID
		}
		if x := r.Values[i]; math.IsInf(x, 0) {
			v.OverRange = true
		} else {
			v.Value = &x
		}
		if c.Quantity == measurements.ACVolts {
			v.because(sub.Why(p.From, p.To, specs[i].InputOhms, s.standing))
		}
		out.Read = append(out.Read, v)
	}
	return out, nil
}

// takes brings the standing to what a check needs: its calls, and for dead work
// what keeps its enclosures dead.
func (s *stood) takes(c *trees.BoundCheck) {
	for call, on := range c.Need.Calls {
		s.standing.Calls[call] = on
	}
	if c.Need.Power != trees.DeadWay {
		return
	}
	for _, box := range c.Need.Enclosures {
		for _, supply := range s.model.Plant.Reaching(box) {
			for _, d := range s.model.Plant.Isolators(supply, box) {
				s.standing.Off[d.ID] = true
			}
		}
	}
}

// specs chooses the mode of each probe: the one asked for, else the first of
// the check that the kit has.
func (s *stood) specs(c *trees.BoundCheck, kit measurements.Kit, mode string) ([]measurements.ModeSpec, error) {
	var out []measurements.ModeSpec
	for _, p := range c.Probes {
		modes := p.Modes
		if mode != "" {
			modes = modeNamed(mode, c.Quantity)
		}
		spec, ok := measurements.ModeSpec{}, false
		for _, m := range modes {
			if _, spec, ok = kit.Find(measurements.Mode(m), c.Quantity); ok {
				break
			}
		}
		if !ok {
			return nil, usage("--mode %s: no instrument reads %s so; expected one of %s", mode, c.Quantity, strings.Join(p.Modes, ", "))
		}
		out = append(out, spec)
	}
	return out, nil
}

// modeNamed finds the mode of a quantity that is meant, hyphens and spaces alike.
func modeNamed(word string, q measurements.Quantity) []string {
	fold := func(s string) string { return strings.ReplaceAll(s, " ", "-") }
	for _, m := range measurements.ModesFor(q) {
		if fold(string(m)) == fold(word) {
			return []string{string(m)}
		}
	}
	return nil
}

// because says where a reading comes from.
func (v *probedValue) because(why plant.Why) {
	open := why.Open
	v.Open = &open
	if z := cmplx.Abs(why.Behind); !math.IsInf(z, 0) {
		v.Behind = &z
	}
	for _, l := range why.Lost {
		state := "stands open"
		if !math.IsInf(l.Ohms, 1) {
			state = "has " + written(l.Ohms, "Ω")
		}
		v.Why = append(v.Why, fmt.Sprintf("%s %s, %s across it", l.Words, state, written(l.Volts, "V")))
	}
}

func answerWords(c *trees.BoundCheck, id string) string {
	for _, a := range c.Answers {
		if a.ID == id {
			return a.Say
		}
	}
	if c.Look != "" {
		return "none of its answers; it tells nothing here"
	}
	return ""
}

// shownValues writes each value as its meter would, OL above its range.
func shownValues(c *trees.BoundCheck, specs []measurements.ModeSpec, r plant.Result) (out []string) {
	if c.Look != "" {
		return []string{answerWords(c, r.Answer)}
	}
	for i, v := range r.Values {
		text := "OL"
		if math.Abs(v) <= specs[i].Top() || specs[i].Top() == 0 {
			text = written(v, c.Quantity.Unit())
		}
		out = append(out, text)
	}
	return out
}

// lines writes a reading for people.
func (p *probed) lines(s *stood, c *trees.BoundCheck) []string {
	out := []string{s.state()}
	if c.Look != "" {
		return append(out, c.Look, "  "+p.Answer+healthy(p.Healthy, 0, p.Answer))
	}
	for i, v := range p.Read {
		probe := c.Probes[i]
		to := "true earth"
		if probe.To != nil {
			to = place(s.model.Plant, probe.To)
		}
		out = append(out, fmt.Sprintf("%s to %s, %s:", place(s.model.Plant, probe.From), to, v.Mode),
			"  reads "+v.shown+healthy(p.Healthy, i, v.shown))
		if v.Amps > 0 {
			out = append(out, "  the meter draws "+written(v.Amps*1000, "mA"))
		}
		if v.Open != nil && v.Behind != nil {
			out = append(out, fmt.Sprintf("  without the meter %s, with %s behind it", written(*v.Open, "V"), written(*v.Behind, "Ω")))
		}
		for _, w := range v.Why {
			out = append(out, "  "+w)
		}
	}
	switch {
	case p.Live:
		out = append(out, "volts stand here: ohms are not read on it")
	case p.Moving:
		out = append(out, "the plant is unsteady: the reading moves, and the highest is given")
	}
	if len(p.Moved) > 0 {
		out = append(out, "the meter changes the plant: "+strings.Join(p.Moved, ", "))
	} else {
		out = append(out, "the meter moves nothing")
	}
	return out
}

func healthy(all []string, i int, here string) string {
	if i >= len(all) || all[i] == here {
		return ""
	}
	return "; a healthy one " + all[i]
}

func place(p *trees.Plant, pt *trees.Point) string {
	if pt.Marking == "" {
		return pt.Words
	}
	return fmt.Sprintf("%s (%s)", pt.Words, pt.Marking)
}

// listFaults writes every fault of a plant with its words and weight.
func listFaults(to io.Writer, m *plant.Model, asJSON bool) error {
	type row struct {
		Fault  string   `json:"fault"`
		Words  string   `json:"words"`
		Weight float64  `json:"weight"`
		Causes []string `json:"causes,omitempty"`
		Refers []string `json:"refers,omitempty"`
		Hidden string   `json:"hidden,omitempty"`
		Source string   `json:"source,omitempty"`
	}
	var rows []row
	var lines []string
	for _, f := range m.Faults() {
		rows = append(rows, row{f.ID, f.Words, f.Weight, f.Causes, f.Refers, f.Hidden, f.Source})
		lines = append(lines, fmt.Sprintf("%-48s %6.3g  %s", f.ID, f.Weight, f.Words))
	}
	if asJSON {
		return writeJSON(to, rows)
	}
	return writeLines(to, append(lines, fmt.Sprintf("%d faults of %s, with their prior weights", len(rows), m.Plant.ID)))
}
