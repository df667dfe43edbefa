package monitor

import (
	"slices"

	"faultwalk/trees"
)

// mustBeDark says whether a supply that comes to an enclosure feeds the control
// board too, so that the controller shows whether it is off; only on a plant where
// something is called at a controller.
func (m *Monitor) mustBeDark(box string) bool {
	for _, c := range m.plant.Calls {
		if c.Stands {
			continue
		}
		return slices.ContainsFunc(m.plant.Supplies, func(s *trees.Supply) bool {
			return m.full[s.ID][box] && len(m.boardsOf(s.ID)) > 0
		})
	}
	return false
}

// boardsOf lists the enclosures in which a supply feeds a control board.
func (m *Monitor) boardsOf(supply string) []string {
	var boxes []string
	for _, part := range m.plant.Parts {
		live := part.Terminals["live"]
		if pt := m.plant.Point(live); part.Kind == "board" && pt != nil && m.fed[supply][live] {
			boxes = append(boxes, pt.In)
		}
	}
	return boxes
}

// commanding says whether a control board may have power now: one does that no
// supply is known to feed.
func (m *Monitor) commanding() bool {
	known := false
	for _, s := range m.plant.Supplies {
		for _, box := range m.boardsOf(s.ID) {
			if known = true; m.now[s.ID][box] {
				return true
			}
		}
	}
	return !known
}
