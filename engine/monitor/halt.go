package monitor

import "faultwalk/engine/journal"

// halt is a voltage found while proving dead. It stands until the enclosure it
// was found in is proved dead after something more was locked off.
type halt struct {
	box      string
	lines    map[string]bool // the pairs that read it
	repeated bool            // one of them was read once more, under load
	isolated bool            // something was locked off since
	second   bool            // a voltage was found again
}

// judgeHalted reports what else was done than one repeat under load, dropping
// demand, switching off, locking and proving again.
func (m *Monitor) judgeHalted(a *journal.Acted) {
	h := m.halt
	switch {
	case h == nil:
	case h.second:
		m.unsafe("%s: %s after a voltage was found a second time in %s", a.Act.Do, a.Act.On, h.box)
	case a.Act.Do == journal.ActProve:
		if f := m.formOf(a.Form); isRepeat(a.Form) && !h.mayRepeat(a.Act.On, f) {
			m.unsafe("prove: a voltage was found in %s; this is not the one repeat under load of the pair that read it", h.box)
		}
	case !quiets(a.Act.Do):
		m.unsafe("%s: %s with a voltage found in %s", a.Act.Do, a.Act.On, h.box)
	}
}

// quiets tells the acts that only take something away from the plant.
func quiets(do string) bool {
	switch do {
	case journal.ActRelease, journal.ActWait, journal.ActSwitchOff, journal.ActLock:
		return true
	}
	return false
}

// isRepeat tells a form that proves nothing: no tester was proved for it.
func isRepeat(fields []journal.Field) bool {
	for _, v := range fields {
		if v.Name == "tester proved before" || v.Name == "tester proved after" {
			return false
		}
	}
	return true
}

func (h *halt) mayRepeat(box string, f form) bool {
	return !h.repeated && box == h.box && len(f.lines) == 1 && f.lines[0].loaded && h.lines[f.lines[0].name]
}

// haltOn takes in what a proof found, and whether it proved its enclosure dead.
func (m *Monitor) haltOn(box string, found map[string]bool, a *journal.Acted, proved bool) {
	volts := len(found) > 0 || a.Outcome == journal.Found
	switch h := m.halt; {
	case h == nil:
		if volts {
			m.halt = &halt{box: box, lines: found}
		}
	case isRepeat(a.Form):
		h.repeated = true
	case volts:
		h.second = true
	case proved && box == h.box && h.isolated && !h.second:
		m.halt = nil
	}
}
