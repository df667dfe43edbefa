package plant_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/plant"
)

// raced are the faults on which it matters who moves first, by the beginning of
// their id, and why. On a real plant with such a fault it is a matter of
// milliseconds too, and of luck. Everywhere else rules that act at once and
// rules that act one after the other must come to the same rest.
var raced = []struct{ fault, why string }{
	{"poor-network-neutral of service", "the mains sags under load: what comes on first keeps the others from starting"},
	{"no-grip of control-fuse", "the board goes out under its loads: a valve that moved before it did stays where it went"},
	{"poor-feed-at-", "the board goes out under its loads: a valve that moved before it did stays where it went"},
	{"board-live-burnt", "the board goes out under its loads: a valve that moved before it did stays where it went"},
	{"board-neutral-burnt", "the board goes out under its loads: a valve that moved before it did stays where it went"},
	{"poor-at-from of receiver-feed-", "the receiver and the pump that it starts starve each other"},
	{"poor-at-to of receiver-feed-", "the receiver and the pump that it starts starve each other"},
	{"poor-at-from of centre-feed-", "receiver, zone valves and the pump that they start starve each other"},
	{"poor-at-to of centre-feed-", "receiver, zone valves and the pump that they start starve each other"},
	{"poor of downstairs-end-switch", "the pump starts on one zone's switch before or after the other zone's makes"},
	{"poor of upstairs-end-switch", "the pump starts on one zone's switch before or after the other zone's makes"},
	{"poor-at-from of downstairs-", "the pump starts on one zone's switch before or after the other zone's makes"},
	{"poor-at-to of downstairs-", "the pump starts on one zone's switch before or after the other zone's makes"},
	{"poor-at-from of upstairs-", "the pump starts on one zone's switch before or after the other zone's makes"},
	{"poor-at-to of upstairs-", "the pump starts on one zone's switch before or after the other zone's makes"},
}

func why(f *plant.Fault) string {
	for _, r := range raced {
		if strings.HasPrefix(f.ID, r.fault) {
			return r.why
		}
	}
	return ""
}

// apart compares the plant settled by all rules at once with the same plant
// settled one change at a time, in the orders of some seeds.
func apart(m *plant.Model, s *plant.Subject, calls map[string]bool, seeds ...uint64) (out []string) {
	st := plant.Standing{Calls: calls}
	s.Stand(st)
	moving, v := s.Unsteady(), s.State()
	for _, seed := range seeds {
		rests, w := s.StandOneAtATime(st, seed)
		switch {
		case moving && rests:
			out = append(out, "it chatters at once and rests one at a time")
		case !moving && !rests:
			out = append(out, "it rests at once and chatters one at a time")
		case !moving:
			for i := range v {
				if v[i] != w[i] {
					out = append(out, fmt.Sprintf("%s is %g at once and %g one at a time", m.VariableName(i), v[i], w[i]))
				}
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func TestHealthyPlantRestsAlikeInWhateverOrderItsPartsMove(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		t.Run(m.Plant.ID, func(t *testing.T) {
			t.Parallel()
			s := m.New(nil, nil)
			for _, d := range []*plant.Draw{nil, m.Draw(1), m.Corner(1)} {
				s.Be(nil, d)
				for _, calls := range combinations(m) {
					if d := apart(m, s, calls, 1, 2, 3, 4, 5); len(d) > 0 {
						t.Errorf("calls %v: %s", calls, strings.Join(d, "; "))
					}
				}
			}
		})
	}
}

func TestFaultyPlantRestsAlikeInWhateverOrderItsPartsMove(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		t.Run(m.Plant.ID, func(t *testing.T) {
			t.Parallel()
			s := m.New(nil, nil)
			differ := 0
			for i, f := range sample(m.Faults()) {
				s.Be(f, nil)
				for _, calls := range fewCalls(m) {
					d := apart(m, s, calls, uint64(i))
					switch {
					case len(d) > 0 && why(f) == "":
						t.Errorf("%s, calls %v: %s; expected one rest, or a row that says why not", f.ID, calls, strings.Join(d, "; "))
					case len(d) > 0:
						differ++
					}
				}
			}
			t.Logf("%d standings depend on who moves first", differ)
		})
	}
}

// fewCalls are none, each call alone, and all of them.
func fewCalls(m *plant.Model) []map[string]bool {
	out, all := []map[string]bool{{}}, map[string]bool{}
	for _, c := range m.Plant.Calls {
		out = append(out, map[string]bool{c.ID: true})
		all[c.ID] = true
	}
	return append(out, all)
}

// sample is every fault, or with -short every ninth.
func sample(all []*plant.Fault) (out []*plant.Fault) {
	for i, f := range all {
		if !testing.Short() || i%9 == 0 {
			out = append(out, f)
		}
	}
	return out
}
