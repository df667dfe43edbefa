package plant_test

import (
	"testing"

	"faultwalk/engine/plant"
)

// insulated is what stands across an open switch of a dry box, in Ω, at least:
// what is open to any ohms range. Common practice, no source.
const insulated = 1e9

// An end switch is read dead with its valve pushed over by hand: sound it makes,
// dead it stays open, and the next reading finds the valve let go.
func TestEndSwitchIsReadWithItsValvePushedOver(t *testing.T) {
	t.Parallel()
	set := embedded(t)
	p, problems := set.Compose("millrace-spur")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	m, problems := plant.Compile(set, p)
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	check, problems := set.BindCheck("end-switch-ohms of downstairs-end-switch", p)
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	off := plant.How{Off: map[string]bool{"unit-isolator": true, "house-breaker": true}}
	for id, open := range map[string]bool{"": false, "dead of downstairs-end-switch": true} {
		s := m.New(m.Fault(id), nil)
		r, err := s.Answer(check, off)
		if err != nil || (r.Values[0] > insulated) != open || !open && r.Values[0] > 0.5 {
			t.Errorf("%q: %v Ω, %v; expected open %v", id, r.Values, err, open)
		}
		let := *check
		let.Need.Asks = nil
		if r, err := s.Answer(&let, off); err != nil || r.Values[0] <= insulated {
			t.Errorf("%q with its valve let go: %v Ω, %v; expected open", id, r.Values, err)
		}
	}
}
