package rehearse

import (
	"slices"
	"testing"

	"faultwalk/measurements"
)

// A second reading is worth taking only if the fault of the cause bears it out
// and that of the rival, or the healthy plant, does not.
func TestSecondReadingTellsTheCauseFromItsRivals(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		plant, check, holds string
		fits, not           []string // faults; "" is the healthy plant
	}{
		{"millrace-large", "pair-drop", "not held(a) or not held(b)", []string{"poor-pair-joint of pair-core-a", "poor-pair-joint of pair-core-b", "pair-taped"},
			[]string{"", "failed of controller", "pulls-down of controller", "pair-shorted"}},
		{"millrace-large", "pair-drop", "held(a) and held(b)", []string{"failed of controller"}, []string{"poor-pair-joint of pair-core-a", "pair-taped"}},
		{"millrace-large", "sensor-pressed of cylinder-sensor", "stays-wrong", []string{"drifted-cold of cylinder-sensor", "drifted-hot of cylinder-sensor"},
			[]string{"", "cylinder-sensor-loose", "cylinder-sensor-out"}},
		{"millrace-large", "spindle-free of diverter", "free", []string{"unseated of diverter"}, []string{"stuck-at-heating of diverter"}},
		{"millrace-large", "called-neutral at neutral calling hot-water", "not quiet(reading)",
			[]string{"poor-feed-at-to of unit-bridge-neutral", "poor-feed-at-from of feed-neutral-core"}, []string{"", "poor-feed-at-to of feed-live-core"}},
		{"millrace-spur", "zone-lever of upstairs-valve", "limp", []string{"dead of upstairs-end-switch"}, []string{"stuck-shut of upstairs-valve"}},
		{"millrace-volt-free", "receiver-follows", "calls", []string{"dead of receiver-relay", "poor of receiver-relay"}, []string{"deaf of receiver"}},
		{"millrace-large", "drop-across of hot-water-output calling hot-water", "not made(reading)",
			[]string{"worn of hot-water-output", "dead of hot-water-output"}, []string{"", "broken-at-from of call-core"}},
		{"millrace-large", "drop-between at receiver-com to receiver-no calling heat", "not made(reading)",
			[]string{"dead of receiver-relay", "receiver-call-burnt"}, []string{"", "missing of receiver-link", "broken-at-from of heat-call-core"}},
		{"millrace-large", "sensor-pressed of cylinder-sensor", "comes", []string{"cylinder-sensor-loose", "cylinder-sensor-out"},
			[]string{"drifted-cold of cylinder-sensor", "corroded of cylinder-sensor", "other-type of cylinder-sensor"}},
		{"millrace-volt-free", "call-wire-to-earth at call-a off heat-call", "mains(reading)", []string{"call-pair-linked"},
			[]string{"", "mains-is-on-low-voltage of board"}},
		{"millrace-large", "limit-ohms of high-limit", "made(reading)", []string{"control-half-in-series"}, []string{"failed of high-limit"}},
		{"millrace-large", "neutral-continuity of feed-neutral-core", "not whole(reading)", []string{"poor-feed-at-to of feed-neutral-core"},
			[]string{"", "poor-feed-at-to of unit-bridge-neutral"}},
	} {
		w := alone(t, c.plant)
		for _, id := range slices.Concat(c.fits, c.not) {
			if fits := w.holdsFor(t, id, c.check, c.holds); fits != slices.Contains(c.fits, id) {
				t.Errorf("%s of %q on %s: %s is %v", c.check, id, c.plant, c.holds, fits)
			}
		}
	}
}

// alone is the engineer on one simulated plant.
func alone(t *testing.T, plant string) *walker {
	t.Helper()
	set := embedded(t)
	j := set.Jurisdictions["gb"]
	set = set.Filled(j)
	p, problems := set.Compose(plant)
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	m, err := compiled(set, p)
	if err != nil {
		t.Fatal(err)
	}
	r, b := &rehearsal{set: set, jurisdiction: j, o: Options{}.filled()}, &bench{plant: p, model: m}
	return newWalker(r, &host{bench: b}, &pass{b, Engineer(measurements.DefaultKit()), ""}, newJudge(set, j, p))
}

// holdsFor takes a check with a fault in the plant and says whether a condition holds.
func (w *walker) holdsFor(t *testing.T, id, check, condition string) bool {
	t.Helper()
	all := w.bench.model.faults()
	i := slices.IndexFunc(all, func(f *fault) bool { return f.id == id })
	if i < 0 && id != "" {
		t.Fatalf("no fault %q", id)
	}
	w.put(nil, 1, 0)
	if i >= 0 {
		w.put(all[i], 1, 0)
	}
	w.walkState = walkState{at: w.ground.first, now: map[string]*reading{}, node: w.track.start}
	c, problems := w.judge.set.BindCheck(check, w.bench.plant)
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if refusal, err := w.until(c, condition); refusal != nil || err != nil {
		t.Fatalf("%s with %q: %v, %v", check, id, refusal, err)
	}
	holds, decided := w.judge.holds(condition, w.now[c.ID], w.used(c))
	if !decided {
		t.Errorf("%s with %q decides nothing: %s", check, id, w.now[c.ID])
	}
	return holds
}
