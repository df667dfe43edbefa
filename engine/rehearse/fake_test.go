package rehearse

import (
	"strings"
	"testing"

	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// fake is a plant whose checks answer what a table says, so that each rule of
// a rehearsal can be tried alone.
type fake struct {
	all     []*fault
	answers map[string]map[string]reply // fault → check → reply; "" is any fault
	shown   map[string][]string         // fault → signs
	twins   map[string]*fault           // "fault on core" → the same there
	live    map[string]float64          // enclosure → V that stay there whatever is off
	shut    map[string]string           // enclosure → device without which it is live at 230 V
	called  map[string]string           // enclosure → call that makes it live at 230 V, beside shut
	mute    bool                        // no line of a proving form reads it
}

// reply is what a check gives: values, or the answer of a look.
type reply struct {
	values  []float64
	answer  string
	moving  bool
	moved   []string
	tripped []string
	lifted  float64
	live    bool
}

// untold is the reply of a look by which nothing can be told.
const untold = "nothing"

func (m *fake) faults() []*fault      { return m.all }
func (m *fake) sweep(uint64) []*fault { return m.all }

func (m *fake) twin(f *fault, core string) *fault { return m.twins[f.id+" on "+core] }

func (m *fake) subject(f *fault, draw *uint64) subject {
	id := ""
	if f != nil {
		id = f.id
	}
	return &fakeSubject{m, id, map[string]bool{}}
}

type fakeSubject struct {
	m    *fake
	id   string
	acts map[string]bool
}

func (s *fakeSubject) be(f *fault, _ *uint64) {
	s.id = ""
	if f != nil {
		s.id = f.id
	}
}

func (s *fakeSubject) answer(c *trees.BoundCheck, specs []measurements.ModeSpec, st standing) (answered, error) {
	r, ok := s.m.answers[s.id][c.ID]
	if !ok {
		r = s.m.answers[""][c.ID]
	}
	a := answered(r)
	for i := len(a.values); i < len(c.Probes); i++ {
		a.values = append(a.values, 231)
	}
	switch {
	case a.answer == untold:
		a.answer = ""
	case a.answer == "" && len(c.Answers) > 0:
		a.answer = c.Answers[0].ID
	}
	return a, nil
}

func (s *fakeSubject) act(act string) error { s.acts[act] = true; return nil }

func (s *fakeSubject) shows(sign *trees.Sign) bool {
	for _, id := range s.m.shown[s.id] {
		if id == sign.ID.Value {
			return true
		}
	}
	return false
}

func (s *fakeSubject) touch(box string, off, calls map[string]bool) (float64, string) {
	if s.m.left(box, off, calls) {
		return 230, "the terminals of " + box
	}
	return s.m.live[box], "the terminals of " + box
}

// left says whether an enclosure is live through the device that is not off,
// and its call where it takes one.
func (m *fake) left(box string, off, calls map[string]bool) bool {
	d, call := m.shut[box], m.called[box]
	return d != "" && !off[d] && (call == "" || calls[call])
}

func (s *fakeSubject) volts(line safety.FormField, off, calls map[string]bool) float64 {
	if !s.m.mute && line.To.Role == "neutral" && line.From.Role == "live" && s.m.left(line.From.In, off, calls) {
		return 230
	}
	return 0
}

// broke is a fault that is the causes and ends at the referrals that are named.
func broke(id string, weight float64, causes, referrals string) *fault {
	within := func(list string) func(string) bool {
		return func(id string) bool {
			for _, one := range strings.Split(list, ",") {
				if one != "" && strings.HasPrefix(id, one) {
					return true
				}
			}
			return false
		}
	}
	return &fault{id: id, words: id, weight: weight, is: within(causes), ends: within(referrals)}
}

func sign(id string, shadows ...string) *trees.Sign {
	s := &trees.Sign{ID: strict.Text{Value: id}}
	for _, o := range shadows {
		s.Shadows = append(s.Shadows, strict.Text{Value: o})
	}
	return s
}

func embedded(t testing.TB) *trees.Set {
	t.Helper()
	set, problems := trees.Embedded()
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	return set
}
