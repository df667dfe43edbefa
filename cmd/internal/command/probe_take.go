package command

import (
	"math"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
	"faultwalk/trees"
)

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
