package monitor

import "faultwalk/engine/journal"

// inside says whether these hands may go into a mains enclosure, isolate,
// prove dead or measure live: electrically competent ones, and an apprentice
// with a supervisor named (handbook 5.2). Being talked through by phone
// changes nothing for them.
func (m *Monitor) inside() bool {
	return m.hands.Kind == "electrical" || m.hands.Kind == "apprentice" && m.hands.Supervisor != ""
}

// whose names the hands for a finding.
func (m *Monitor) whose() string {
	switch {
	case m.hands.Kind == "":
		return "hands that nobody named"
	case m.hands.Kind == "apprentice" && m.hands.Supervisor == "":
		return "an apprentice without a supervisor"
	}
	return m.hands.Kind + " hands"
}

// judgeHands reports covers, locks, proofs and mains plugs in the wrong hands.
// A cover with no mains behind it is kept from a householder only.
func (m *Monitor) judgeHands(a journal.Act) {
	if m.inside() {
		return
	}
	switch a.Do {
	case journal.ActLock, journal.ActUnlock, journal.ActProve:
		m.unsafe("%s: %s by %s", a.Do, a.On, m.whose())
	case journal.ActOpen, journal.ActClose:
		if m.mains(a.On) || m.hands.Kind != "installer" && m.hands.Kind != "apprentice" {
			m.unsafe("%s: the cover of %s by %s", a.Do, a.On, m.whose())
		}
	case journal.ActUnplug, journal.ActRefit:
		if box := m.plugIn(a.On); box != "" && m.mains(box) {
			m.unsafe("%s: %s, in the mains enclosure %s, by %s", a.Do, a.On, box, m.whose())
		}
	}
}

func (m *Monitor) plugIn(id string) string {
	if plug := m.plant.Plug(id); plug != nil {
		return plug.In
	}
	return ""
}
