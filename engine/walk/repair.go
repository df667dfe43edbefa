package walk

import (
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// repairing is the cause being put right now; nil if none.
func (j *Job) repairing() *trees.BoundCause {
	id, ok := strings.CutPrefix(j.mind.told("result"), "repair ")
	if !ok {
		return nil
	}
	for _, c := range j.mind.place.Causes {
		if c.ID == id {
			return c
		}
	}
	return nil
}

// notRepairable says why these hands cannot make a repair; empty if they can.
// A householder on the phone is only ever told what the author worded for that.
func (j *Job) notRepairable(c *trees.BoundCause) string {
	if r := safety.Available(j.context(), j.world, safety.OfNeed(c.Remedy.Need)); r != nil {
		return r.Why
	}
	if h := j.mind.hands; h.Phone && h.Kind == "householder" && c.Remedy.Say == "" {
		return "it is never talked through by phone"
	}
	return ""
}

// askRepair gives the remedy once the plant is in the state it needs.
func askRepair(j *Job) *Ask {
	c := j.repairing()
	if c == nil || j.mind.finish != nil {
		return nil
	}
	ask := &Ask{ID: "repair", Kind: Choose, Title: "Repair: " + c.Words}
	if why := j.notRepairable(c); why != "" {
		ask.Body = []string{"It cannot be done here: " + why + "."}
		ask.Choices = []Choice{{ID: "leave", Text: "leave it safe, retest due"}, {ID: "refer", Text: "pass the repair on"}}
		return ask
	}
	if acts, _ := j.batch(); len(acts) > 0 {
		return nil
	}
	ask.Body = []string{strings.TrimSpace(c.Remedy.Do)}
	if j.plainWords() && c.Remedy.Say != "" {
		ask.Body = []string{"Say: “" + strings.TrimSpace(c.Remedy.Say) + "”"}
	}
	if len(c.Remedy.Parts) > 0 {
		ask.Body = append(ask.Body, "Parts: "+strings.Join(c.Remedy.Parts, "; "))
	}
	if c.Behind != "" {
		ask.Body = append(ask.Body, "Look behind it: "+c.Behind)
	}
	ask.Choices = []Choice{{ID: "done", Text: "repaired"}, {ID: "leave", Text: "could not be repaired: leave it safe"}}
	return ask
}

func takeRepair(j *Job, x Answer) (taken, error) {
	c, err := pick(askRepair(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	cause := j.repairing()
	if c != "done" {
		return taken{bodies: []any{j.mind.tell("result", c)}}, nil
	}
	if r := safety.Guard(j.context(), j.world, safety.OfNeed(cause.Remedy.Need)); r != nil {
		return taken{}, &Refused{r.Why}
	}
	return taken{bodies: []any{&journal.Repaired{Cause: cause.ID, Did: strings.TrimSpace(cause.Remedy.Do), Parts: cause.Remedy.Parts}},
		say: []string{"Now it is proved: the deciding reading again, then what the sign needs."}}, nil
}
