package walk

import "faultwalk/engine/journal"

// lastTaken is the number of the last event that can be taken back; 0 if none.
// What was done to the plant cannot, nor can a change of hands or a repair.
func (j *Job) lastTaken() int {
	gone := map[int]bool{}
	for _, e := range j.events {
		if b, ok := e.Body.(*journal.Retracted); ok {
			gone[b.Event] = true
		}
	}
	for i := len(j.events) - 1; i >= 0; i-- {
		e := j.events[i]
		if gone[e.N] {
			continue
		}
		switch b := e.Body.(type) {
		case *journal.Read, *journal.Skipped, *journal.Turned:
			return e.N
		case *journal.Answered:
			if b.Ask == "hand over" && b.Choice == "yes" {
				return 0
			}
			if j.world != nil && b.Ask == "plant" && j.acted() {
				return 0
			}
			return e.N
		case *journal.Handed, *journal.Repaired, *journal.Closed, *journal.Opened:
			return 0
		}
	}
	return 0
}

func (j *Job) acted() bool {
	for _, e := range j.events {
		if e.Kind == journal.KindActed {
			return true
		}
	}
	return false
}

func (j *Job) back() (taken, error) {
	if j.aside != nil {
		j.aside = nil
		return taken{}, nil
	}
	return taken{bodies: []any{&journal.Retracted{Event: j.lastTaken()}}, say: []string{"Taken back. The plant stays as it is."}}, nil
}
