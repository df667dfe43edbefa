package plant_test

import (
	"testing"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
	"faultwalk/trees"
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

// A contact that is nothing but what its part follows is worked like one whose
// rule makes it, and is let go again.
func TestContactFollowsTheHandDirectly(t *testing.T) {
	t.Parallel()
	m := bench(t, "closed: made", "closed: followed")
	s := m.New(nil, nil)
	check := &trees.BoundCheck{ID: "contact", Quantity: measurements.Ohms, Lifted: []string{"stat"},
		Probes: []trees.BoundProbe{{From: m.Plant.Point("in-live"), FromSide: "stat", To: m.Plant.Point("call"), ToSide: "stat"}}}
	for _, asks := range [][]string{nil, {"lever"}, nil, {"lever"}} {
		check.Need.Asks = asks
		r, err := s.Answer(check, plant.How{Off: breakerOff})
		if err != nil || (r.Values[0] > insulated) != (asks == nil) {
			t.Errorf("asked for %v: %v Ω, %v", asks, r.Values, err)
		}
	}
}
