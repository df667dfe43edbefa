package trees_test

import (
	"maps"
	"slices"
	"testing"

	"faultwalk/trees"
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
