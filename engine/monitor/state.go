package monitor

import (
	"maps"
	"strings"

	"faultwalk/engine/journal"
)

// state is what the events say was done to the plant. It only moves forward.
type state struct {
	hands    journal.Hands
	off      map[string]bool    // devices
	locked   map[string]bool    // devices
	open     map[string]bool    // enclosures
	proved   map[string]bool    // enclosures, dead since the last complete form
	standing map[string]bool    // calls made and not withdrawn
	fixed    map[string]bool    // of those, calls these hands could not withdraw
	stopping map[string]float64 // calls withdrawn → minutes waited since
	rested   map[string]float64 // outdoor units → minutes waited since they were isolated
	once     map[string]bool    // checks read
	halt     *halt
	closed   bool
}

func newState() *state {
	return &state{off: map[string]bool{}, locked: map[string]bool{}, open: map[string]bool{}, proved: map[string]bool{},
		standing: map[string]bool{}, fixed: map[string]bool{}, stopping: map[string]float64{}, rested: map[string]float64{}, once: map[string]bool{}}
}

func (s *state) clone() *state {
	c := *s
	for _, m := range []*map[string]bool{&c.off, &c.locked, &c.open, &c.proved, &c.standing, &c.fixed, &c.once} {
		*m = maps.Clone(*m)
	}
	c.stopping, c.rested = maps.Clone(s.stopping), maps.Clone(s.rested)
	if s.halt != nil {
		h := *s.halt
		c.halt = &h
	}
	return &c
}

// done lets an act change the state. What could not be done changes nothing,
// but that demand cannot be dropped or waited out is known from then on.
func (m *Monitor) done(a *journal.Acted) {
	if a.Outcome == journal.Cannot {
		m.stuck(a.Act)
		return
	}
	switch on := a.Act.On; a.Act.Do {
	case journal.ActCall, journal.ActRelease, journal.ActBack, journal.ActWait:
		m.demand(a.Act)
	case journal.ActSwitchOff, journal.ActLock, journal.ActUnlock, journal.ActSwitchOn:
		m.device(a.Act.Do, on)
	case journal.ActOpen:
		m.open[on] = true
	case journal.ActClose:
		delete(m.open, on)
		delete(m.proved, on)
	case journal.ActProve:
		m.takeForm(on, a)
	}
	m.rest(a.Act)
}

// stuck: demand is dropped first where it can be (handbook 1.3, step 3); where
// somebody tried and could not, switching off under load is the lesser evil. What
// was withdrawn before a pause and cannot be again has its time to stop, from the
// pause on.
func (m *Monitor) stuck(a journal.Act) {
	switch a.Do {
	case journal.ActRelease:
		m.fixed[a.On] = true
	case journal.ActWait:
		clear(m.stopping)
	}
}

func (m *Monitor) demand(a journal.Act) {
	switch a.Do {
	case journal.ActCall:
		m.standing[a.On] = true
		delete(m.fixed, a.On)
		delete(m.stopping, a.On)
	case journal.ActRelease:
		if m.standing[a.On] {
			delete(m.standing, a.On)
			m.stopping[a.On] = 0
		}
	case journal.ActBack: // as found: nothing that we made stands
		delete(m.standing, a.On)
		delete(m.stopping, a.On)
	case journal.ActWait:
		for call := range m.stopping {
			m.stopping[call] += a.Minutes
		}
	}
}

// called takes in what a check has people call in doing it: after a reset the
// plant is put to work.
func (m *Monitor) called(check string) {
	c := m.checks(check)
	if c == nil {
		return
	}
	for _, does := range c.Does {
		for _, act := range strings.Split(does, ",") {
			if call, made := strings.CutPrefix(strings.TrimSpace(act), "call "); made {
				m.demand(journal.Act{Do: journal.ActCall, On: call})
			}
		}
	}
}

// device follows a device. Taking its lock off, or switching it on, voids the
// proof of everything its supply reaches.
func (m *Monitor) device(do, on string) {
	switch do {
	case journal.ActSwitchOff:
		m.off[on] = true
	case journal.ActLock:
		m.locked[on] = true
		if m.halt != nil {
			m.halt.isolated = true
		}
	case journal.ActSwitchOn:
		delete(m.off, on)
		fallthrough
	case journal.ActUnlock:
		delete(m.locked, on)
		for box := range m.proved {
			if m.reaches(on, box) {
				delete(m.proved, box)
			}
		}
	}
	m.follow(m.state)
}
