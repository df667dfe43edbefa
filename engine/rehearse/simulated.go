package rehearse

import (
	"faultwalk/engine/plant"
	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// Run rehearses the trees of a set on its plants, simulated.
func Run(set *trees.Set, o Options) (*Report, error) {
	whole, problems := set.Whole()
	if err := problems.Err(); err != nil {
		return nil, err
	}
	return run(whole, o, compiled, whole.Signs)
}

// compiled is the real model of a plant.
func compiled(set *trees.Set, p *trees.Plant) (model, error) {
	m, problems := plant.Compile(set, p)
	if err := problems.Err(); err != nil {
		return nil, err
	}
	return simulated{m, screenOf(set, p)}, nil
}

// simulated fits the plant's model to what a rehearsal asks of it.
type simulated struct {
	model  *plant.Model
	screen screen
}

// screen is the look that tells whether a controller has power, and the answer by
// which it has none. A plant without such a look is as one whose screen is dark.
type screen struct {
	look *trees.BoundCheck
	dark string
}

func screenOf(set *trees.Set, p *trees.Plant) screen {
	for _, c := range p.Calls {
		if k := set.Checks[c.Unless.Check]; k != nil && !c.Stands {
			return screen{&trees.BoundCheck{ID: k.ID, Check: k, Look: k.Look.Value, Answers: k.Answers}, c.Unless.Answer}
		}
	}
	return screen{}
}

func (m simulated) faults() []*fault {
	var out []*fault
	for _, f := range m.model.Faults() {
		out = append(out, &fault{id: f.ID, words: f.Words, weight: f.Weight, is: f.Is, ends: f.Ends, right: rightEnds(f), hidden: f.Hidden, of: f})
	}
	return out
}

// rightEnds names the causes and referrals at which a walk has found a fault.
func rightEnds(f *plant.Fault) (out []string) {
	for _, c := range f.Causes {
		out = append(out, "cause "+c)
	}
	for _, r := range f.Refers {
		out = append(out, "refer "+r)
	}
	return out
}

// sweep gives the faults that nobody wrote.
func (m simulated) sweep(seed uint64) []*fault {
	var out []*fault
	for _, f := range m.model.Sweep(seed) {
		out = append(out, m.ofSweep(f))
	}
	return out
}

func (m simulated) ofSweep(f *plant.Fault) *fault {
	is, ends := m.swept(f)
	return &fault{id: f.ID, words: f.Words, weight: f.Weight, is: is, ends: ends, right: []string{"any cause of " + f.On}, drawn: true, of: f}
}

func (m simulated) twin(f *fault, core string) *fault {
	if t := m.model.Twin(f.of, core); t != nil {
		return m.ofSweep(t)
	}
	return nil
}

func (m simulated) subject(f *fault, draw *uint64) subject {
	return &simulatedSubject{m.model.New(m.of(f, draw)), m}
}

func (m simulated) of(f *fault, draw *uint64) (of *plant.Fault, d *plant.Draw) {
	if f != nil {
		of = f.of
	}
	if draw != nil {
		d = m.model.Draw(*draw)
	}
	return of, d
}

type simulatedSubject struct {
	*plant.Subject
	simulated
}

func (s *simulatedSubject) be(f *fault, draw *uint64) { s.Be(s.of(f, draw)) }

func (s *simulatedSubject) answer(c *trees.BoundCheck, specs []measurements.ModeSpec, st standing) (answered, error) {
	r, err := s.Answer(c, plant.How{Specs: specs, Off: st.off, Unplugged: st.unplugged})
	return answered{values: r.Values, answer: r.Answer, moving: r.Moving, moved: r.Moved, tripped: r.Tripped, lifted: r.LiftsTo, live: r.Live}, err
}

func (s *simulatedSubject) act(act string) error        { return s.Act(act) }
func (s *simulatedSubject) shows(sign *trees.Sign) bool { return s.Shows(sign) }

func (s *simulatedSubject) dark(off map[string]bool) bool {
	if s.screen.look == nil {
		return true
	}
	r, err := s.Answer(s.screen.look, plant.How{Off: off})
	return err == nil && r.Answer == s.screen.dark
}

func (s *simulatedSubject) touch(box string, off, calls map[string]bool) (float64, string) {
	return s.Touch(box, off, calls)
}

func (s *simulatedSubject) volts(line safety.FormField, off, calls map[string]bool) float64 {
	ohms := measurements.TesterOhms
	if measurements.Mode(line.Mode).Loads() {
		ohms = measurements.LoadedOhms
	}
	return s.Between(line.From, line.To, ohms, plant.Standing{Calls: calls, Off: off})
}
