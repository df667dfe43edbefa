package plant_test

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"faultwalk/engine/plant"
	"faultwalk/trees"
)

// combinations are all sets of a plant's calls.
func combinations(m *plant.Model) []map[string]bool {
	out := []map[string]bool{{}}
	for _, c := range m.Plant.Calls {
		for _, without := range slices.Clone(out) {
			with := maps.Clone(without)
			with[c.ID] = true
			out = append(out, with)
		}
	}
	return out
}

// healthy plants: nominal, drawn, and with parts at the ends of their tolerance.
func healthy(m *plant.Model, draws uint64) map[string]*plant.Draw {
	out := map[string]*plant.Draw{"nominal": nil, "all high": m.Extreme(1), "all low": m.Extreme(-1)}
	for seed := range draws {
		out[fmt.Sprint("drawn ", seed)] = m.Draw(seed)
		out[fmt.Sprint("corner ", seed)] = m.Corner(seed)
	}
	return out
}

func TestHealthyPlantRestsHoldsAndShowsNoSign(t *testing.T) {
	t.Parallel()
	draws := uint64(50)
	if testing.Short() {
		draws = 5
	}
	for _, m := range models(t) {
		t.Run(m.Plant.ID, func(t *testing.T) {
			t.Parallel()
			s := m.New(nil, nil)
			for name, d := range healthy(m, draws) {
				s.Be(nil, d)
				for _, calls := range combinations(m) {
					s.Stand(plant.Standing{Calls: calls})
					if wrong := s.Unhealthy(); wrong != "" {
						t.Errorf("%s, calls %v: %s", name, calls, wrong)
					}
				}
				for _, sign := range signs(t) {
					if s.Shows(sign) {
						t.Errorf("%s shows %q", name, sign.ID.Value)
					}
				}
			}
		})
	}
}

func signs(tb testing.TB) []*trees.Sign {
	tb.Helper()
	all := embedded(tb).Signs
	if len(all) == 0 {
		tb.Fatal("there is no sign to look for")
	}
	return all
}
