package plant

import (
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
