package command

import (
	"fmt"
	"math"
	"math/cmplx"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// probed is one reading, as JSON has it. Values are in the unit of the quantity
// and as the network has them; shown is what the meter makes of one. A value that
// is over range or not read at all is null.
type probed struct {
	Plant   string        `json:"plant"`
	Fault   string        `json:"fault,omitempty"`
	Check   string        `json:"check,omitempty"`
	Answer  string        `json:"answer,omitempty"`
	Read    []probedValue `json:"read,omitempty"`
	Moving  bool          `json:"moving,omitempty"`
	Moved   []string      `json:"moved,omitempty"`
	Tripped []string      `json:"tripped,omitempty"`
	CaseAt  float64       `json:"case_volts,omitempty"`
	Live    bool          `json:"live,omitempty"`
	Stands  float64       `json:"live_volts,omitempty"` // the most that stands at a probe where ohms were to be read
	Healthy []string      `json:"healthy,omitempty"`
}

type probedValue struct {
	From      string   `json:"from"`
	To        string   `json:"to,omitempty"`
	Meter     string   `json:"meter"`
	Mode      string   `json:"mode"`
	Value     *float64 `json:"value"`
	Shown     string   `json:"shown,omitempty"`
	OverRange bool     `json:"over_range,omitempty"`
	Unit      string   `json:"unit"`
	Amps      float64  `json:"meter_amps"`
	Open      *float64 `json:"without_meter,omitempty"`
	Behind    *float64 `json:"behind_ohms,omitempty"`
	Why       []string `json:"why,omitempty"`
}

// probe takes the check on the plant as it stands.
func (s *stood) probe(c *trees.BoundCheck, kit measurements.Kit, mode string) (*probed, error) {
	specs, meters, err := s.specs(c, kit, mode)
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
	out := &probed{Plant: s.model.Plant.ID, Check: c.ID, Answer: answerWords(c, r.Answer), Moving: r.Moving, Moved: r.Moved,
		Tripped: r.Tripped, Live: r.Live, CaseAt: r.LiftsTo}
	if s.fault != nil {
		out.Fault = s.fault.ID
		if well, err := s.model.New(nil, nil).Answer(c, how); err == nil {
			out.Healthy = shownValues(c, specs, well)
		}
	}
	shown := shownValues(c, specs, r)
	for i, p := range c.Probes {
		v := probedValue{From: p.From.ID, Meter: meters[i].ID, Mode: string(specs[i].Mode), Unit: c.Quantity.Unit(), Amps: r.Amps[i]}
		if p.To != nil {
			v.To = p.To.ID
		}
		if !r.Live {
			v.reads(r.Values[i], specs[i], shown[i])
		}
		if c.Quantity == measurements.ACVolts {
			v.because(sub.Why(p.From, p.To, specs[i].InputOhms, s.standing))
		}
		out.Read = append(out.Read, v)
	}
	if r.Live {
		out.Stands = stands(sub, c, how)
	}
	return out, nil
}

// reads takes in what a probe gave.
func (v *probedValue) reads(x float64, spec measurements.ModeSpec, shown string) {
	v.Shown = shown
	if v.OverRange = math.IsInf(x, 0) || math.Abs(x) > spec.Top(); !math.IsInf(x, 0) {
		v.Value = &x
	}
}

// stands is the most, in V ac or dc, that stands between the probes of a check or
// from one of them to true earth: what a tester warns of before it reads ohms.
func stands(sub *plant.Subject, c *trees.BoundCheck, how plant.How) (most float64) {
	for _, p := range c.Probes {
		for _, pair := range [][2]*trees.Point{{p.From, p.To}, {p.From, nil}, {p.To, nil}} {
			if pair[0] == nil {
				continue
			}
			for _, q := range []measurements.Quantity{measurements.ACVolts, measurements.DCVolts} {
				volts := *c
				volts.Quantity, volts.Probes = q, []trees.BoundProbe{{From: pair[0], To: pair[1]}}
				one := how
				one.Specs = []measurements.ModeSpec{{Quantity: q, InputOhms: warnerOhms}}
				if r, err := sub.Answer(&volts, one); err == nil {
					most = max(most, math.Abs(r.Values[0]))
				}
			}
		}
	}
	return most
}

// warnerOhms is the input of a tester that warns of volts, in ohm, as that of a
// two-pole tester whose button is not pressed. From memory.
const warnerOhms = 300e3

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

// shownValues writes each value as its meter would: no more digits than it has,
// OL above its range, and nothing where ohms were to be read on a live part.
func shownValues(c *trees.BoundCheck, specs []measurements.ModeSpec, r plant.Result) (out []string) {
	if c.Look != "" {
		return []string{answerWords(c, r.Answer)}
	}
	for i, v := range r.Values {
		switch {
		case r.Live:
			out = append(out, "nothing, being live")
		case math.Abs(v) > specs[i].Top():
			out = append(out, "OL")
		default:
			out = append(out, c.Quantity.Format(specs[i].Rounded(v)))
		}
	}
	return out
}
