package rehearse

import (
	"faultwalk/engine/plant"
	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// Run rehearses trees: what the plants' models say is walked against what the
// trees say.
func Run(set *trees.Set, o Options) (*Report, error) {
	return run(set, o, func(set *trees.Set, p *trees.Plant) (model, error) {
		m, problems := plant.Compile(set, p)
		if err := problems.Err(); err != nil {
			return nil, err
		}
		return &simulated{m: m}, nil
	}, set.Signs)
}

type simulated struct{ m *plant.Model }

func (m *simulated) faults() []*fault           { return faultsOf(m.m.Faults()) }
func (m *simulated) sweep(seed uint64) []*fault { return faultsOf(m.m.Sweep(seed)) }

func faultsOf(all []*plant.Fault) (out []*fault) {
	for _, f := range all {
		out = append(out, &fault{id: f.ID, words: f.Words, weight: f.Weight, is: f.Is, ends: f.Ends, hidden: f.Hidden, of: f})
	}
	return out
}

func (m *simulated) subject(f *fault, draw *uint64) subject {
	var d *plant.Draw
	if draw != nil {
		d = m.m.Draw(*draw)
	}
	if f == nil {
		return &stood{m.m.New(nil, d)}
	}
	return &stood{m.m.New(f.of.(*plant.Fault), d)}
}

type stood struct{ s *plant.Subject }

func (s *stood) answer(c *trees.BoundCheck, specs []measurements.ModeSpec, st standing) (answered, error) {
	r, err := s.s.Answer(c, plant.How{Specs: specs, Off: st.off, Unplugged: st.unplugged})
	return answered{values: r.Values, answer: r.Answer, moving: r.Moving, moved: r.Moved, lifted: r.LiftsTo}, err
}
func (s *stood) act(act string) error        { return s.s.Act(act) }
func (s *stood) shows(sign *trees.Sign) bool { return s.s.Shows(sign) }
func (s *stood) touch(enclosure string, off, calls map[string]bool) (float64, string) {
	return s.s.Touch(enclosure, off, calls)
}
func (s *stood) volts(line safety.FormField, off, calls map[string]bool) float64 {
	ohms := 300e3
	if line.Mode == "two-pole loaded" {
		ohms = 7e3
	}
	return s.s.Between(line.From, line.To, ohms, plant.Standing{Calls: calls, Off: off})
}
