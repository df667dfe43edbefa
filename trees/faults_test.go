package trees

import (
	"fmt"
	"regexp"
	"slices"
	"testing"
)

var mode = regexp.MustCompile(`\bF\d+\b`)

// unmodelled are the modes of the fault catalogue that no plant here can have.
var unmodelled = map[string]string{}

// The fault catalogue has the modes F01 to F124; each is a fault of a model or
// of an assembly, or says why it is none.
func TestEveryModeOfTheFaultCatalogueIsAFault(t *testing.T) {
	t.Parallel()
	var found []string
	for _, f := range everyFault(t) {
		found = append(found, mode.FindAllString(f.Source, -1)...)
	}
	for i := 1; i <= 124; i++ {
		id := fmt.Sprintf("F%02d", i)
		if got := slices.Contains(found, id); got == (unmodelled[id] != "") {
			t.Errorf("%s: a fault of it is there: %v; it is listed as not possible: %q", id, got, unmodelled[id])
		}
	}
}

// A weight comes from the catalogue, or is common practice.
func TestEveryFaultSaysWhereItsWeightIsFrom(t *testing.T) {
	t.Parallel()
	for _, f := range everyFault(t) {
		if mode.FindString(f.Source) == "" && f.Source != "common practice, no source" {
			t.Errorf("%v: the fault %q says %q for its source; expected modes of the catalogue or common practice",
				f.ID.Pos, f.ID.Value, f.Source)
		}
	}
}

// everyFault lists the faults of all models, and of the assemblies the plants use.
func everyFault(t *testing.T) []ModelFault {
	t.Helper()
	set, problems := Embedded()
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	var all []ModelFault
	for _, id := range idsOf(set.Models)() {
		all = append(all, set.Models[id].Faults...)
	}
	for _, id := range idsOf(set.Plants)() {
		p, problems := set.Compose(id)
		if err := problems.Err(); err != nil {
			t.Fatal(err)
		}
		all = append(all, p.Faults...)
	}
	return all
}

// Faults of parts and assemblies alone, those of cores and poles apart.
func TestPlantsFailInManyWays(t *testing.T) {
	t.Parallel()
	set, problems := Embedded()
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	for id, least := range map[string]int{"millrace-large": 110, "millrace-small": 90} {
		p, problems := set.Compose(id)
		if err := problems.Err(); err != nil {
			t.Fatal(err)
		}
		n := len(p.Faults)
		for _, part := range p.Parts {
			n += len(set.Models[part.Kind].Faults)
		}
		if n < least {
			t.Errorf("%s has %d faults; expected at least %d", id, n, least)
		}
	}
}
