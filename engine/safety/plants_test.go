package safety

import (
	"maps"
	"slices"
	"testing"

	"faultwalk/trees"
)

// ours composes every plant of the embedded trees with the engineer at it.
func ours(tb testing.TB) (*trees.Set, []Context) {
	tb.Helper()
	set, problems := trees.Embedded()
	if len(problems) > 0 {
		tb.Fatal(problems[0])
	}
	var all []Context
	for _, id := range slices.Sorted(maps.Keys(set.Plants)) {
		p, problems := set.Compose(id)
		if len(problems) > 0 {
			tb.Fatal(problems[0])
		}
		ctx := engineer()
		ctx.Plant, ctx.Jurisdiction = p, set.Jurisdictions["gb"]
		ctx.Hands.Certificates = []string{"unvented"}
		all = append(all, ctx)
	}
	return set, all
}

func TestEveryCheckOfEveryPlantIsReachedAndThePlantPutBack(t *testing.T) {
	t.Parallel()
	set, all := ours(t)
	for _, ctx := range all {
		w := New(ctx.Plant)
		for _, id := range slices.Sorted(maps.Keys(set.Symptoms)) {
			g, problems := set.Bind(id, ctx.Plant)
			if len(problems) > 0 {
				continue // a symptom for other plants
			}
			for _, path := range g.Order {
				c := g.Steps[path].Check
				if c == nil {
					continue
				}
				if r := Available(ctx, New(ctx.Plant), OfCheck(c)); r != nil {
					t.Errorf("%s: %s: %s", ctx.Plant.ID, c.ID, r.Why)
					continue
				}
				reach(t, ctx, w, c)
			}
		}
		after, r := Rehearse(ctx, w, PlanRestore(ctx, w))
		if r != nil || len(after.Devices)+len(after.Plugs)+len(after.Enclosures) > 0 {
			t.Errorf("%s is not put back: %v, %v %v %v", ctx.Plant.ID, r, after.Devices, after.Plugs, after.Enclosures)
		}
	}
}

func BenchmarkAvailable(b *testing.B) {
	_, all := ours(b)
	ctx := all[0]
	need := trees.Need{Power: trees.DeadWay, Enclosures: []string{"control-enclosure", "valve-box"}}
	for b.Loop() {
		if r := Available(ctx, New(ctx.Plant), OfNeed(need)); r != nil {
			b.Fatal(r.Why)
		}
	}
}
