package plant

import (
	"slices"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// Clamps says what a clamp at a probe's place goes round, in people's words: for
// leakage live and neutral of the supply together, else one core or terminal.
// It is empty where there is nothing to go round.
func (m *Model) Clamps(q measurements.Quantity, p trees.BoundProbe) string {
	if q == measurements.Leakage {
		for _, n := range m.supplies {
			if slices.Contains(m.Plant.FedBy(p.From.ID), n.of.ID) {
				return "live and neutral of " + n.of.Words + " together"
			}
		}
	}
	for _, name := range m.ways(p) {
		if _, ok := m.branchAt[name]; ok {
			return m.branchWords(name)
		}
	}
	return ""
}
