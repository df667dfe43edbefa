package monitor

import (
	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// judgeForm reports a proof through a cover, and a load button pressed where
// it may not be.
func (m *Monitor) judgeForm(box string, a *journal.Acted) {
	if !m.open[box] {
		m.unsafe("prove: the cover of %s is on", box)
	}
	m.needDischarged("prove", box)
	for _, l := range m.formOf(a.Form).lines {
		if l.loaded {
			m.judgePair("prove: loaded", l.from, l.to)
		}
	}
}

// takeForm makes an enclosure proved, or not, and halts on a voltage.
func (m *Monitor) takeForm(box string, a *journal.Acted) {
	f := m.formOf(a.Form)
	for name, yes := range f.called {
		if call := m.callID(name); yes && !m.standing[call] {
			m.demand(journal.Act{Do: journal.ActCall, On: call})
		}
	}
	found := f.found()
	m.provokedBy(f, len(found) > 0)
	clean := a.Outcome == journal.Done && len(found) == 0
	whole := clean && m.complete(box, f)
	if whole && m.open[box] && len(m.live(box)) == 0 {
		m.proved[box] = true
	} else {
		delete(m.proved, box)
	}
	m.haltOn(box, found, a, m.proved[box])
}

// provokedBy takes in the calls that were made for a proof alone. A find ends it
// before they are withdrawn; otherwise they are, and what they started is
// stopping. Without power nothing was called.
func (m *Monitor) provokedBy(f form, found bool) {
	for call, yes := range f.tried {
		switch {
		case !yes:
		case found:
			m.demand(journal.Act{Do: journal.ActCall, On: call})
		case !m.standing[call] && m.commanding():
			m.stopping[call] = 0
		}
	}
}

// complete says whether a form holds all that proves this enclosure dead: the
// tester proved before and after, every call made that stands by itself, the
// controller dark where its supply comes here, and the others called where it
// does not and one can bring mains here; every live and switched point to a
// neutral and to an earth, every neutral and extra-low point to an earth, to a
// neutral too where mains could come to it, and the lives of different supplies
// to each other (handbook 1.3, step 6).
func (m *Monitor) complete(box string, f form) bool {
	if !f.before || !f.after || m.mustBeDark(box) && !f.dark {
		return false
	}
	for _, c := range m.plant.Calls {
		if c.Stands && !m.standing[c.ID] {
			return false
		}
	}
	for _, pt := range m.plant.Points {
		if pt.In == box && !(m.tested(pt, f) && m.provoked(pt, f)) {
			return false
		}
	}
	return m.crossed(box, f)
}

// provoked says whether everything was called that could make a switched point
// live from a board that keeps its power: its outputs are dead until then.
func (m *Monitor) provoked(pt *trees.Point, f form) bool {
	if pt.Role != "switched" || m.mustBeDark(pt.In) {
		return true
	}
	for _, c := range m.plant.Calls {
		if !c.Stands && !f.tried[c.ID] {
			return false
		}
	}
	return true
}

func (m *Monitor) tested(pt *trees.Point, f form) bool {
	this := func(id string) bool { return id == pt.ID }
	neutral, earth := f.reads(this, m.beside(pt.In, "neutral")), f.reads(this, m.beside(pt.In, "earth"))
	switch pt.Role {
	case "live", "switched", "elv":
		return neutral && earth
	case "neutral":
		return earth
	}
	return true
}

// beside tells the points of a role in an enclosure or in the one its readings are taken to.
func (m *Monitor) beside(box, role string) func(id string) bool {
	e := m.plant.Enclosure(box)
	return func(id string) bool {
		pt := m.plant.Point(id)
		return pt != nil && pt.Role == role && (pt.In == box || e != nil && e.Reference != "" && pt.In == e.Reference)
	}
}

// crossed says whether the lives of each two supplies in an enclosure were read to each other.
func (m *Monitor) crossed(box string, f form) bool {
	own := func(s, not *trees.Supply) func(id string) bool {
		return func(id string) bool {
			pt := m.plant.Point(id)
			return pt != nil && pt.In == box && m.fed[s.ID][id] && !m.fed[not.ID][id]
		}
	}
	for i, s := range m.plant.Supplies {
		for _, t := range m.plant.Supplies[:i] {
			if m.any(own(s, t)) && m.any(own(t, s)) && !f.reads(own(s, t), own(t, s)) {
				return false
			}
		}
	}
	return true
}

func (m *Monitor) any(is func(id string) bool) bool {
	for _, pt := range m.plant.Points {
		if is(pt.ID) {
			return true
		}
	}
	return false
}

// callID finds a call by its id or its words.
func (m *Monitor) callID(name string) string {
	for _, c := range m.plant.Calls {
		if c.ID == name || c.Words == name {
			return c.ID
		}
	}
	return name
}
