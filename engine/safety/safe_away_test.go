package safety

import (
	"slices"
	"testing"
)

// Handbook 1.3: three zeros with a doubtful earth prove nothing; 5.1: keep off
// metal, the unit outside too.
func TestAPlantWhoseEarthIsInDoubtIsIsolatedAtItsOriginAndNotReachedInto(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, volts(ctx, "permanent-live", "neutral", nil))
	got := keys(PlanAway(ctx, w))
	if !slices.Contains(got, "lock unit-breaker") || slices.Contains(got, "switch off unit-isolator") {
		t.Errorf("the unit's supply is not isolated at its breaker: %v", got)
	}
	for _, k := range got {
		if k == "prove control-enclosure" || k == "close control-enclosure" {
			t.Errorf("somebody reaches in: %v", got)
		}
	}
	if got := PlanAway(ctx, New(house())); len(got) != 0 {
		t.Errorf("nothing is open and it plans %v", keys(got))
	}
}
