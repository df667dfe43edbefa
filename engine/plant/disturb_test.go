package plant_test

import (
	"fmt"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// TestReadingsThatDisturbAHealthyPlantAreFound: 3 kΩ from live to earth trip the
// residual current device, 300 kΩ do not; live to neutral nothing happens.
func TestReadingsThatDisturbAHealthyPlantAreFound(t *testing.T) {
	t.Parallel()
	m := bench(t)
	modes := []string{string(measurements.HighImpedance), string(measurements.LowImpedance), string(measurements.TwoPoleUnloaded)}
	check := func(id, to, power string) *trees.BoundCheck {
		return &trees.BoundCheck{ID: id, Quantity: measurements.ACVolts, Need: trees.Need{Power: power},
			Probes: []trees.BoundProbe{{From: m.Plant.Point("in-live"), To: m.Plant.Point(to), Modes: modes}}}
	}
	var got []string
	for _, d := range m.Disturbed([]*trees.BoundCheck{check("earth", "earth", trees.Live), check("neutral", "neutral", trees.Live),
		check("dead", "earth", trees.DeadWay)}, measurements.DefaultKit()) {
		got = append(got, fmt.Sprintf("%s on %s, %s: %s", d.Check.ID, d.Meter, d.Mode, d.What))
	}
	if diff := gocmp.Diff([]string{"earth on multimeter, low impedance: residual current device unit"}, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// TestNoCheckOfATreeDisturbsAHealthyPlant on any plant, in any mode it names.
func TestNoCheckOfATreeDisturbsAHealthyPlant(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		for _, d := range m.Disturbed(checks(t, m), measurements.DefaultKit()) {
			t.Errorf("%s: %s on %s: %s", m.Plant.ID, d.Check.ID, d.Mode, d.What)
		}
	}
}
