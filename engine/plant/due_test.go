package plant

import (
	"slices"
	"testing"

	"faultwalk/trees"
)

func embedded(tb testing.TB, id string) *Model {
	tb.Helper()
	set, problems := trees.Embedded()
	if len(problems) > 0 {
		tb.Fatal(problems.Format(5))
	}
	p, problems := set.Compose(id)
	if len(problems) > 0 {
		tb.Fatal(problems.Format(5))
	}
	m, problems := Compile(set, p)
	if len(problems) > 0 {
		tb.Fatal(problems.Format(5))
	}
	return m
}

// TestPlantAtRestIsAtRestForEveryRule holds the rules that were not worked out
// because nothing they read had changed: worked out all together they change
// nothing either.
func TestPlantAtRestIsAtRestForEveryRule(t *testing.T) {
	t.Parallel()
	m := embedded(t, "millrace-spur")
	s := m.New(nil, nil)
	rests := 0
	for _, f := range m.Faults() {
		s.Be(f, nil)
		for _, call := range []string{"", "heat", "hot-water"} {
			s.stand(Standing{Calls: map[string]bool{call: true}})
			if len(s.visits) > 0 {
				continue
			}
			rests++
			if s.step() {
				t.Errorf("%s, called %q: rules that were passed over change the plant", f.ID, call)
			}
		}
	}
	if rests < len(m.Faults()) {
		t.Errorf("%d standings came to rest, expected most of %d", rests, 3*len(m.Faults()))
	}
}

// TestSettlingFromWhatChangedIsSettlingFromScratch: with every rule worked out
// anew, and every branch, the plant comes to the same, and goes round the same.
func TestSettlingFromWhatChangedIsSettlingFromScratch(t *testing.T) {
	t.Parallel()
	for _, id := range []string{"millrace-spur", "millrace-volt-free"} {
		m := embedded(t, id)
		quick, whole := m.New(nil, nil), m.New(nil, nil)
		for i, f := range m.Faults() {
			var d *Draw
			if i%5 == 4 {
				d = m.Draw(uint64(i))
			}
			quick.Be(f, d)
			whole.Be(f, d)
			for _, st := range []Standing{{Calls: map[string]bool{"heat": true}}, {Calls: map[string]bool{"heat": true, "hot-water": true}},
				{Off: map[string]bool{"unit-isolator": true}}, {Calls: map[string]bool{"hot-water": true}, Unplugged: []string{m.Plant.Plugs[0].ID}}} {
				quick.stand(st)
				whole.scratch(st)
				if !slices.Equal(quick.v, whole.v) || len(quick.visits) != len(whole.visits) {
					t.Errorf("%s, %s, standing %q: from what changed it comes to another state than from scratch", id, f.ID, st.key())
				}
			}
		}
	}
}

// scratch brings the plant into a standing as if nothing were known of it.
func (s *Subject) scratch(st Standing) {
	s.forget()
	s.part(s.m.parted(st))
	copy(s.v, s.base)
	for c, on := range st.Calls {
		s.v[s.m.varAt["call "+c]] = truth(on)
	}
	for d := range st.Off {
		s.v[s.m.varAt["device "+d+" on"]] = 0
	}
	s.rest, s.anew = rest{}, true
	s.settle()
}

// TestSettlingAllocatesNothingOnceWarm keeps thousands of histories cheap.
func TestSettlingAllocatesNothingOnceWarm(t *testing.T) {
	m := embedded(t, "millrace-small")
	s := m.New(nil, nil)
	heat, water := m.varAt["call heat"], m.varAt["call hot-water"]
	round := func() {
		s.v[heat], s.v[water] = 1-s.v[heat], s.v[heat]
		s.settle()
	}
	round()
	if a := testing.AllocsPerRun(50, round); a != 0 {
		t.Errorf("%v allocations to settle a healthy plant, want none", a)
	}
}
