package safety

import (
	"math"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// Discharge is how many minutes the outdoor unit stands off and locked before
// its cover comes off and before anything is proved behind it: the capacitors of
// its drive hold 300 to 400 V dc after isolation (handbook 1.3 and C12; common
// practice, no source).
const Discharge = 10.0

// rested credits minutes to every outdoor unit that is off and locked.
func (w *World) rested(minutes float64) {
	if !(minutes > 0) || math.IsInf(minutes, 0) {
		return
	}
	for _, e := range w.plant.Enclosures {
		if e.Unit && w.Isolated(e.ID) {
			w.Rested[e.ID] = min(w.Rested[e.ID]+minutes, Discharge)
		}
	}
}

// charged takes the minutes back from every outdoor unit that may have had power
// since.
func (w *World) charged() {
	for id := range w.Rested {
		if !w.Isolated(id) {
			delete(w.Rested, id)
		}
	}
}

// wantsDischarged refuses hands and probes in an outdoor unit whose drive may
// still hold a charge.
func (w *World) wantsDischarged(e *trees.Enclosure) *Refusal {
	if left := Discharge - w.Rested[e.ID]; e.Unit && left > 0 {
		return first("wait %g minutes more with %s off and locked: its drive holds a charge", left, e.Words)
	}
	return nil
}

// discharge waits until the drives behind covers that are to come off, or to be
// proved, have let their charge go.
func (p *planner) discharge(boxes []string) {
	for _, box := range boxes {
		e := p.ctx.Plant.Enclosure(box)
		if e != nil && p.w.Isolated(box) && p.w.wantsDischarged(e) != nil {
			p.do(journal.ActWait, box, Discharge-p.w.Rested[box])
		}
	}
}
