package monitor

import "faultwalk/engine/journal"

// held is how long the drive of an outdoor unit keeps its charge after it was
// isolated, in minutes (handbook 1.3 and C12: wait at least 10; common practice,
// no source).
const held = 10

// rest counts the minutes that each outdoor unit has stood isolated, and begins
// again for one that power can reach.
func (m *Monitor) rest(a journal.Act) {
	for _, e := range m.plant.Enclosures {
		switch {
		case !e.Unit:
		case len(m.live(e.ID)) > 0:
			delete(m.rested, e.ID)
		case a.Do == journal.ActWait:
			m.rested[e.ID] += a.Minutes
		}
	}
}

// needDischarged reports a cover off, or probes, at a drive that may hold its charge.
func (m *Monitor) needDischarged(what, box string) {
	if e := m.plant.Enclosure(box); e != nil && e.Unit && m.rested[box] < held {
		m.unsafe("%s: %s was isolated %g minutes ago, its drive holds a charge for %d", what, box, m.rested[box], held)
	}
}
