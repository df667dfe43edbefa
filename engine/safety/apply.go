package safety

import (
	"math"

	"faultwalk/engine/journal"
)

// Apply takes in one event. Readings taken back, repairs and remarks change
// nothing: the plant stays as it was left. What was called for a reset may stand,
// or not where it tripped before. A proof is judged again by its form,
// whatever the event calls its outcome.
func (w *World) Apply(e journal.Event) {
	switch b := e.Body.(type) {
	case *journal.Acted:
		w.acted(b)
	case *journal.Read:
		w.Read[b.Check] = true
		for _, id := range b.Called {
			w.lapse(id)
		}
	case *journal.Resumed:
		w.doubt()
	case *journal.Handed:
		w.doubt()
		clear(w.Cannot) // other hands may be able to
	}
}

// acted takes in an act by its outcome.
func (w *World) acted(b *journal.Acted) {
	switch b.Outcome {
	case journal.Cannot:
		w.Cannot[Key(b.Act)] = true
	case journal.Done, journal.Found:
		delete(w.Cannot, Key(b.Act))
		w.done(b)
	}
}

// done changes what the act changes.
func (w *World) done(b *journal.Acted) {
	on := b.Act.On
	switch b.Act.Do {
	case journal.ActSwitchOff, journal.ActLock, journal.ActUnlock, journal.ActSwitchOn:
		w.switched(b.Act)
	case journal.ActOpen:
		w.Enclosures[on] = Enclosure{Open: Set}
	case journal.ActClose:
		delete(w.Enclosures, on)
	case journal.ActUnplug:
		w.Plugs[on] = Set
	case journal.ActRefit:
		delete(w.Plugs, on)
	case journal.ActCall:
		w.called(on)
	case journal.ActRelease:
		w.Calls[on] = Call{Asked: Off}
	case journal.ActBack:
		delete(w.Calls, on)
	case journal.ActWait:
		w.waited(b.Act.Minutes)
		w.rested(b.Act.Minutes)
	case journal.ActProve:
		w.proving(b)
	}
}

// called notes that a call was made. One that could not be withdrawn before is
// a new call now, and is to be withdrawn before anything is switched off.
func (w *World) called(id string) {
	w.Calls[id] = Call{Asked: On}
	delete(w.Cannot, Key(journal.Act{Do: journal.ActRelease, On: id}))
}

// switched moves a device. Putting power back voids the proof of all that its
// supply reaches, and every wait: a board that lost its supply starts afresh.
func (w *World) switched(a journal.Act) {
	d := w.Devices[a.On]
	switch a.Do {
	case journal.ActSwitchOff:
		d.Off = Set
	case journal.ActLock:
		d.Locked = Set
	case journal.ActUnlock:
		d.Locked = AsFound
		w.void(a.On)
	case journal.ActSwitchOn:
		d.Off = AsFound
		w.void(a.On)
		w.restart()
	}
	w.Devices[a.On] = d
	if d == (Device{}) {
		delete(w.Devices, a.On)
	}
	w.charged()
}

// void ends the proof of every enclosure the device's supply reaches.
func (w *World) void(device string) {
	d := w.plant.Device(device)
	for id, e := range w.Enclosures {
		if d == nil || contains(w.plant.Reaching(id), d.Supply) {
			e.Proved = false
			w.Enclosures[id] = e
		}
	}
}

// waited credits minutes to every call that was touched: time passes for all,
// for one that may have been withdrawn before a pause from its end on.
func (w *World) waited(minutes float64) {
	if !(minutes > 0) || math.IsInf(minutes, 0) {
		return
	}
	for id, c := range w.Calls {
		c.Minutes += minutes
		known := w.plant.Call(id)
		c.Stopped = c.Stopped || c.Asked != On && known != nil && c.Minutes >= known.Stop
		w.Calls[id] = c
	}
}

// restart takes back every wait.
func (w *World) restart() {
	for id, c := range w.Calls {
		c.Minutes = 0
		w.Calls[id] = c
	}
}

// doubt is what a pause or other hands do: every proof and wait is void, and
// what we set has to be seen again before it counts.
func (w *World) doubt() {
	for id, d := range w.Devices {
		w.Devices[id] = Device{Off: doubted(d.Off), Locked: doubted(d.Locked)}
	}
	for id, e := range w.Enclosures {
		w.Enclosures[id] = Enclosure{Open: doubted(e.Open)}
	}
	for id, s := range w.Plugs {
		w.Plugs[id] = doubted(s)
	}
	for id := range w.Calls {
		w.Calls[id] = Call{Asked: Lapsed}
	}
	clear(w.Rested)
}

// doubted turns what was set into something to be seen again.
func doubted(s State) State {
	if s == Set {
		return Unsure
	}
	return s
}

// contains says whether a list holds a word.
func contains(list []string, word string) bool {
	for _, v := range list {
		if v == word {
			return true
		}
	}
	return false
}
