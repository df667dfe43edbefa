package trees

import (
	"maps"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Trees bound together are those bound one by one; a check that two of them take
// is one.
func TestTreesBoundTogetherAreThoseBoundOneByOne(t *testing.T) {
	t.Parallel()
	set, problems := Embedded()
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	p, problems := set.Compose("millrace-spur")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	all, problems := set.BindAll(p)
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	once, shared := map[string]*BoundCheck{}, 0
	for _, symptom := range slices.Sorted(maps.Keys(set.Symptoms)) {
		alone, problems := set.Bind(symptom, p)
		if err := problems.Err(); err != nil {
			t.Fatal(err)
		}
		g := all[symptom]
		if d := cmp.Diff(alone.Order, g.Order); d != "" {
			t.Errorf("%s has other steps: %s", symptom, d)
		}
		if d := cmp.Diff(slices.Sorted(maps.Keys(alone.causes)), slices.Sorted(maps.Keys(g.causes))); d != "" {
			t.Errorf("%s has other causes: %s", symptom, d)
		}
		if d := cmp.Diff(slices.Sorted(maps.Keys(alone.checks)), slices.Sorted(maps.Keys(g.checks))); d != "" {
			t.Errorf("%s has other checks: %s", symptom, d)
		}
		for id, c := range g.checks {
			if was := once[id]; was != nil && was != c {
				t.Errorf("%s is bound twice", id)
			} else if was != nil {
				shared++
			}
			once[id] = c
		}
	}
	if shared == 0 {
		t.Error("no two trees take one check")
	}
}

func TestNothingIsBoundTogetherWhereATreeHasAProblem(t *testing.T) {
	t.Parallel()
	set, problems := Embedded()
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	p, problems := set.Compose("millrace-small")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	broken := *set
	broken.Routines = map[string]*Routine{}
	if all, problems := broken.BindAll(p); len(problems) == 0 || all != nil {
		t.Errorf("%d trees without their routines, %d problems", len(all), len(problems))
	}
}
