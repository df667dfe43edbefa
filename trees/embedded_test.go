package trees_test

import (
	"maps"
	"slices"
	"testing"

	"faultwalk/trees"
	"faultwalk/trees/prove"
)

// embedded is the set this program ships, composed plants included.
func embedded(t *testing.T) (*trees.Set, map[string]*trees.Plant) {
	t.Helper()
	set, problems := trees.Embedded()
	if len(problems) > 0 {
		t.Fatal(problems.Format(30))
	}
	plants := map[string]*trees.Plant{}
	for id := range set.Plants {
		p, problems := set.Compose(id)
		if len(problems) > 0 {
			t.Fatal(problems.Format(30))
		}
		plants[id] = p
	}
	return set, plants
}

func TestEverySymptomBindsToEveryPlantItServes(t *testing.T) {
	t.Parallel()
	set, plants := embedded(t)
	for _, plant := range slices.Sorted(maps.Keys(plants)) {
		for _, symptom := range slices.Sorted(maps.Keys(set.Symptoms)) {
			g, problems := set.Bind(symptom, plants[plant])
			if len(problems) > 0 {
				t.Errorf("%s on %s:\n%s", symptom, plant, problems.Format(30))
			} else if g == nil {
				t.Errorf("%s does not serve %s", symptom, plant)
			} else {
				t.Logf("%s on %s: %d steps, %d causes", symptom, plant, len(g.Steps), len(g.Causes(g.Start)))
			}
		}
	}
}

func TestEveryEmbeddedStepIsProved(t *testing.T) {
	t.Parallel()
	set, plants := embedded(t)
	pr := prove.New()
	gb := set.Jurisdictions["gb"]
	for _, plant := range slices.Sorted(maps.Keys(plants)) {
		for symptom := range set.Symptoms {
			g, _ := set.Bind(symptom, plants[plant])
			if g == nil {
				continue
			}
			for _, path := range g.Order {
				b := g.Steps[path]
				if len(b.Check.Probes) == 0 {
					continue
				}
				exp := &trees.Expectation{Low: 1000, Nominal: 1500, High: 2000}
				s, err := set.BranchSet(b, trees.Situation{Jurisdiction: gb, Expected: exp})
				if err != nil {
					t.Errorf("%s on %s: %v", path, plant, err)
					continue
				}
				part, und, err := pr.Table(s)
				if err != nil {
					t.Errorf("%s on %s: %v", path, plant, err)
					continue
				}
				for _, u := range und {
					t.Logf("%s: undecided %+v", path, u)
				}
				for _, f := range part.Findings() {
					t.Errorf("%s: %s on %s: %s", b.Pos, path, plant, f)
				}
			}
		}
	}
}
