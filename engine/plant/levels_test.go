package plant_test

import (
	"testing"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// TestLevelsAreTheMostUndrivenAndTheLeastDriven: over all draws a lamp of 1 kΩ
// behind a contact of 100 kΩ in parallel shows at most 240·(1.1 kΩ / 101.1 kΩ) =
// 2.6 V released on a meter of 10 MΩ, rounded up to half a volt; called it shows
// full mains, which says nothing that a weak supply would not, and is left out.
func TestLevelsAreTheMostUndrivenAndTheLeastDriven(t *testing.T) {
	t.Parallel()
	m := bench(t, "  rules:\n    - {set: made", "    - {id: snubber, from: in, to: out, ohms: 100000}\n  rules:\n    - {set: made")
	probe := trees.BoundProbe{From: m.Plant.Point("call"), To: m.Plant.Point("neutral"),
		Modes: []string{string(measurements.HighImpedance), string(measurements.LowImpedance)}}
	check := &trees.BoundCheck{ID: "driven", Quantity: measurements.ACVolts, Probes: []trees.BoundProbe{probe, probe}}
	levels := m.Levels([]*trees.BoundCheck{check, check}, measurements.DefaultKit())
	off := map[string]float64{}
	for _, l := range levels {
		if l.From != "call" || l.To != "neutral" || l.On != -1 {
			t.Errorf("level %+v, want one of the call, with no on", l)
		}
		off[l.Mode] = l.Off
	}
	near(t, "high impedance", off[string(measurements.HighImpedance)], 2.5, 0.51)
	near(t, "low impedance", off[string(measurements.LowImpedance)], 2, 0.51)
	if len(levels) != 2 {
		t.Errorf("%d levels, want one for each mode", len(levels))
	}
}
