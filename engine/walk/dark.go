package walk

import (
	"slices"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// dark says whether the screen at which a call is withdrawn was last seen dead,
// and nothing was done since that could have lit it.
func (j *Job) dark(c *trees.Call) bool {
	r := j.mind.now[c.Unless.Check]
	if c.Still == "" || r == nil || r.answer != c.Unless.Answer {
		return false
	}
	seen := r.events[len(r.events)-1]
	return !slices.ContainsFunc(j.events, func(e journal.Event) bool { return e.N > seen && j.lights(e) })
}

// lights says whether what happened could bring a screen back: power put on,
// something refitted, a reset, or a call made, which takes a screen.
func (j *Job) lights(e journal.Event) bool {
	switch b := e.Body.(type) {
	case *journal.Acted:
		do := b.Act.Do
		return b.Outcome == journal.Done && (do == journal.ActSwitchOn || do == journal.ActRefit || do == journal.ActCall)
	case *journal.Read:
		c := j.Check(b.Check)
		return c != nil && (c.Check.Once || len(c.Does) > 0)
	}
	return false
}
