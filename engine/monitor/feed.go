package monitor

import "faultwalk/trees"

// feed follows each supply from its live and from its neutral, loads left out.
func (w *wiring) feed() {
	w.groups = map[string]map[string]bool{}
	wire := func(l *trees.Link) bool { return l.Kind != trees.LinkEarth && l.Kind != trees.LinkLoad }
	for _, s := range w.plant.Supplies {
		w.fed[s.ID] = w.flood(s.Live, wire)
		group := s.RCD
		if group == "" {
			group = "without an RCD: " + s.ID
		}
		for _, side := range []map[string]bool{w.fed[s.ID], w.flood(s.Neutral, wire)} {
			for id := range side {
				if w.groups[id] == nil {
					w.groups[id] = map[string]bool{}
				}
				w.groups[id][group] = true
			}
		}
	}
}

// sameGroup says whether two points belong to one RCD group and to no other.
func (w *wiring) sameGroup(a, b string) bool {
	if len(w.groups[a]) != 1 || len(w.groups[b]) != 1 {
		return false
	}
	for g := range w.groups[a] {
		return w.groups[b][g]
	}
	return false
}
