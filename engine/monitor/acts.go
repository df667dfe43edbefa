package monitor

import (
	"slices"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// judgeAct reports an act that should not have been done, nor asked for.
func (m *Monitor) judgeAct(a *journal.Acted) {
	if m.closed {
		m.unsafe("%s: %s after the job was closed", a.Act.Do, a.Act.On)
	}
	m.judgeHalted(a)
	m.judgeHands(a.Act)
	switch on := a.Act.On; a.Act.Do {
	case journal.ActSwitchOff:
		m.judgeLoad(on)
		m.judgeHandle(a.Act.Do, on)
	case journal.ActLock, journal.ActUnlock, journal.ActSwitchOn:
		m.judgeHandle(a.Act.Do, on)
	case journal.ActOpen:
		m.judgeOpening(on)
	case journal.ActClose:
		if m.mains(on) {
			m.needDead("the cover was put on", on)
		}
	case journal.ActUnplug, journal.ActRefit:
		if box := m.plugIn(on); box != "" && m.mains(box) {
			m.needDead(a.Act.Do+": "+on, box)
		}
	case journal.ActProve:
		m.judgeForm(on, a)
	}
}

// judgeOpening: a mains cover comes off only with every reaching supply off
// and locked; a sealed one and the consumer unit's stay on.
func (m *Monitor) judgeOpening(box string) {
	e := m.plant.Enclosure(box)
	switch {
	case e == nil:
		m.unsafe("open: there is no enclosure %q on this plant", box)
	case e.Sealed:
		m.unsafe("open: %s is sealed", box)
	case m.begins(box):
		m.unsafe("open: a supply starts in %s, so nothing here makes it dead", box)
	}
	if still := m.live(box); len(still) > 0 {
		m.unsafe("open: the cover of %s with %s not off and locked", box, strings.Join(still, " and "))
	}
	m.needDischarged("open", box)
}

// needDead reports hands in a mains enclosure that is not open, isolated and
// proved dead.
func (m *Monitor) needDead(what, box string) {
	if !m.open[box] {
		m.unsafe("%s: the cover of %s is on", what, box)
	}
	if still := m.live(box); len(still) > 0 {
		m.unsafe("%s: %s is reached by %s, not off and locked", what, box, strings.Join(still, " and "))
	}
	if !m.proved[box] {
		m.unsafe("%s: %s is not proved dead", what, box)
	}
}

// judgeLoad: demand is dropped, and what runs has stopped, before anything is
// switched off (handbook 1.3). A device of a supply that is off already breaks
// nothing.
func (m *Monitor) judgeLoad(device string) {
	d := m.plant.Device(device)
	if d == nil {
		m.unsafe("switch off: there is no device %q on this plant", device)
		return
	}
	for _, other := range m.plant.Devices {
		if other.Supply == d.Supply && m.off[other.ID] {
			return
		}
	}
	for _, call := range m.plant.Calls {
		waited, stopping := m.stopping[call.ID]
		if m.standing[call.ID] && !m.fixed[call.ID] {
			m.unsafe("switch off: %s under load, the call for %s stands", device, call.ID)
		} else if stopping && waited < call.Stop {
			m.unsafe("switch off: %s under load, %s was released and needs %g minutes to stop, %g were waited", device, call.ID, call.Stop, waited)
		}
	}
}

// judgeHandle: a switch whose own cover is off is not worked while its incoming
// terminals, where its poles begin, may be live.
func (m *Monitor) judgeHandle(do, device string) {
	for _, l := range m.plant.Links {
		if l.Kind != trees.LinkPole || l.Of != device {
			continue
		}
		if pt := m.plant.Point(l.From); pt != nil && m.open[pt.In] && (!m.proved[pt.In] || len(m.live(pt.In)) > 0) {
			m.unsafe("%s: %s with the cover of %s off and not proved dead", do, device, pt.In)
			return
		}
	}
}

// judgeRepair: hands go into every mains enclosure the remedy names.
func (m *Monitor) judgeRepair(r *journal.Repaired) {
	if m.closed {
		m.unsafe("repair: %s after the job was closed", r.Cause)
	}
	if m.halt != nil {
		m.unsafe("repair: %s with a voltage found in %s", r.Cause, m.halt.box)
	}
	c := m.causes(r.Cause)
	if c == nil {
		m.unsafe("repair: nobody knows the cause %q", r.Cause)
		return
	}
	n := c.Remedy.Need
	boxes := slices.Concat(n.Enclosures, n.Covers)
	for _, plug := range n.Unplugged {
		boxes = append(boxes, m.plugIn(plug))
	}
	for _, box := range sortedOnce(boxes) {
		if m.mains(box) {
			m.needDead("repair: "+r.Cause, box)
			m.needCompetent("repair: "+r.Cause, box)
		}
	}
}

func (m *Monitor) needCompetent(what, box string) {
	if !m.inside() {
		m.unsafe("%s: in the mains enclosure %s by %s", what, box, m.whose())
	}
}

// judgeClose: a job that ends well leaves no live parts in reach.
func (m *Monitor) judgeClose(c *journal.Closed) {
	for _, e := range m.plant.Enclosures {
		if !m.open[e.ID] || !m.mains(e.ID) {
			continue
		}
		still := m.live(e.ID)
		if c.As == journal.Proven || c.As == journal.LeftSafe && len(still) > 0 {
			m.unsafe("closed as %s: the cover of %s is off", c.As, e.ID)
		}
	}
}

func sortedOnce(ids []string) []string {
	out := slices.Clone(ids)
	slices.Sort(out)
	return slices.Compact(out)
}
