package rehearse

import (
	"errors"
	"slices"
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
	shut    map[string]string           // enclosure → devices; it is live at 230 V until one of them is off
	called  map[string]string           // enclosure → call that makes it live at 230 V, beside shut
	lit     string                      // devices; its controller is lit until one of them is off
	mute    bool                        // no line of a proving form reads it
	share   float64                     // of its volts that a drawn plant has; 0: all
	after   map[string]reply            // check → reply once something was reset
	fails   map[string]bool             // "fault check" → it cannot answer that
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
	return &fakeSubject{m, id, map[string]bool{}, draw != nil}
}

type fakeSubject struct {
	m     *fake
	id    string
	acts  map[string]bool
	drawn bool
}

func (s *fakeSubject) be(f *fault, draw *uint64) {
	s.id, s.acts, s.drawn = "", map[string]bool{}, draw != nil
	if f != nil {
		s.id = f.id
	}
}

func (s *fakeSubject) answer(c *trees.BoundCheck, specs []measurements.ModeSpec, st standing) (answered, error) {
	if s.m.fails[s.id+" "+c.ID] {
		return answered{}, errors.New("it does not converge")
	}
	r, ok := s.m.answers[s.id][c.ID]
	if !ok {
		r = s.m.answers[""][c.ID]
	}
	if after, ok := s.m.after[c.ID]; ok && len(s.acts) > 0 {
		r = after
	}
	a := answered(r)
	if s.drawn && s.m.share > 0 {
		a.values = slices.Clone(a.values)
		for i := range a.values {
			a.values[i] *= s.m.share
		}
	}
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
	by, call := strings.Fields(m.shut[box]), m.called[box]
	shut := slices.ContainsFunc(by, func(d string) bool { return off[d] })
	return len(by) > 0 && !shut && (call == "" || calls[call])
}

func (s *fakeSubject) dark(off map[string]bool) bool {
	by := strings.Fields(s.m.lit)
	return len(by) == 0 || slices.ContainsFunc(by, func(d string) bool { return off[d] })
}

func (s *fakeSubject) volts(line safety.FormField, off, calls map[string]bool) float64 {
	if !s.m.mute && line.To.Role == "neutral" && (line.From.Role == "live" || line.From.Role == "switched") && s.m.left(line.From.In, off, calls) {
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

// simulatedSmall is the smallest plant with its model.
func simulatedSmall(t *testing.T) (*trees.Set, *trees.Plant, model) {
	t.Helper()
	set := embedded(t)
	p, problems := set.Compose("millrace-small")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	m, err := compiled(set, p)
	if err != nil {
		t.Fatal(err)
	}
	return set, p, m
}
