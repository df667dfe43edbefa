package trees

import "testing"

// A tree that no simulated plant could start is never walked in rehearsal.
func TestEverySymptomIsASign(t *testing.T) {
	t.Parallel()
	s, problems := Embedded()
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	for id := range s.Symptoms {
		if s.Sign(id) == nil {
			t.Errorf("the symptom %q has no sign of its name", id)
		}
	}
	for id, symptom := range s.Symptoms {
		if sign := s.Sign(id); sign != nil && sign.Words != symptom.Sign {
			t.Errorf("%q: the sign says %q, the tree %q", id, sign.Words, symptom.Sign)
		}
	}
}
