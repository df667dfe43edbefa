package monitor

import (
	"slices"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// judgeRead reports a reading that should not have been taken. One given
// early was taken before anybody asked, so only its mode is judged.
func (m *Monitor) judgeRead(r *journal.Read) {
	if m.closed {
		m.unsafe("read: %s after the job was closed", r.Check)
	}
	c := m.checks(r.Check)
	if c == nil {
		m.unsafe("read: nobody knows the check %q", r.Check)
		return
	}
	m.judgeOnce(c, r)
	m.judgeModes(c, r)
	if r.Purpose == journal.ForEarly {
		return
	}
	if m.halt != nil {
		m.unsafe("read: %s with a voltage found in %s", c.ID, m.halt.box)
	}
	m.judgePlaces(c, r)
}

// judgeOnce: one given early counts as done, but nobody was led to it.
func (m *Monitor) judgeOnce(c *trees.BoundCheck, r *journal.Read) {
	if c.Check.Once && m.once[c.ID] && r.Purpose != journal.ForEarly {
		m.unsafe("read: %s a second time; it may be done once in a job", c.ID)
	}
}

// judgeModes holds every loaded reading to live and neutral of one RCD group.
func (m *Monitor) judgeModes(c *trees.BoundCheck, r *journal.Read) {
	for _, v := range r.Values {
		if v.Mode != "low impedance" && v.Mode != "two-pole loaded" {
			continue
		}
		for _, p := range probes(c, v.As) {
			if p.From != nil && p.To != nil {
				m.judgePair("read: "+c.ID+" on "+v.Mode, p.From.ID, p.To.ID)
			} else {
				m.unsafe("read: %s on %s has one side only", c.ID, v.Mode)
			}
		}
	}
}

// judgePair: 3 kilohm from live to earth trips an RCD, and lifts a badly
// earthed case to mains (handbook 1.3); across two groups it trips both.
func (m *Monitor) judgePair(what, a, b string) {
	if m.isEarth(a) || m.isEarth(b) {
		m.unsafe("%s: from %s to %s, which is to earth or a case", what, a, b)
	} else if !m.sameGroup(a, b) {
		m.unsafe("%s: from %s to %s, which are not of one RCD group", what, a, b)
	}
}

func (m *Monitor) isEarth(id string) bool {
	pt := m.plant.Point(id)
	return pt == nil || pt.Role == "earth"
}

// probes finds the probe a value belongs to; a name nobody knows means any of them.
func probes(c *trees.BoundCheck, as string) []trees.BoundProbe {
	for _, p := range c.Probes {
		if p.As == as || p.As == "" && as == "reading" {
			return []trees.BoundProbe{p}
		}
	}
	return c.Probes
}

// judgePlaces reports hands in a mains enclosure that is shut, not proved dead
// where that is needed, or not theirs to be in; and volts or amps read
// anywhere by hands that may not.
func (m *Monitor) judgePlaces(c *trees.BoundCheck, r *journal.Read) {
	live := isLive(c)
	if live && !m.inside() {
		m.unsafe("read: %s by %s", c.ID, m.whose())
	}
	for _, box := range m.boxes(c, r) {
		switch {
		case !m.mains(box):
		case !live:
			m.needDead("read: "+c.ID, box)
			m.needCompetent("read: "+c.ID, box)
		case !m.open[box]:
			m.unsafe("read: %s: the cover of %s is on", c.ID, box)
		}
	}
}

// isLive tells volts and amps, which may be read with the supplies on, from
// all that is done with hands or with the meter's own current.
func isLive(c *trees.BoundCheck) bool {
	switch string(c.Quantity) {
	case "ac volts", "dc volts", "amps", "leakage":
		return !c.Check.Dead
	}
	return false
}

// boxes lists the enclosures a reading reaches into: where its probes stood
// and what the check says it looks into.
func (m *Monitor) boxes(c *trees.BoundCheck, r *journal.Read) []string {
	var out []string
	for _, v := range r.Values {
		for _, p := range probes(c, v.As) {
			for _, pt := range []*trees.Point{p.From, p.To} {
				if pt != nil && pt.In != "" {
					out = append(out, pt.In)
				}
			}
		}
	}
	if len(r.Values) == 0 || len(c.Check.Inside) > 0 {
		out = slices.Concat(out, c.Need.Enclosures, c.Need.Covers)
	}
	return sortedOnce(out)
}
