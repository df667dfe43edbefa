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

// askRepair gives the remedy once the plant is in the state it needs.
func askRepair(j *Job) *Ask {
	c := j.repairing()
	if c == nil || j.mind.finish != nil {
		return nil
	}
	if acts, _ := j.batch(); len(acts) > 0 {
		return nil
	}
	ask := &Ask{ID: "repair", Kind: Choose, Title: "Repair: " + c.Words, Body: []string{strings.TrimSpace(c.Remedy.Do)}}
	if j.plainWords() && c.Remedy.Say != "" {
		ask.Body = []string{"Say: “" + strings.TrimSpace(c.Remedy.Say) + "”"}
	}
	if len(c.Remedy.Parts) > 0 {
		ask.Body = append(ask.Body, "Parts: "+strings.Join(c.Remedy.Parts, "; "))
	}
	if c.Behind != "" {
		ask.Body = append(ask.Body, "Look behind it: "+c.Behind)
	}
	if r := safety.Guard(j.context(), j.world, safety.OfNeed(c.Remedy.Need)); r != nil {
		ask.Body = []string{"Not now: " + r.Why}
		ask.Choices = []Choice{{ID: "leave", Text: "leave it safe, retest due"}}
		return ask
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
	if c == "leave" {
		return taken{bodies: []any{j.mind.tell("result", "leave")}}, nil
	}
	return taken{bodies: []any{&journal.Repaired{Cause: cause.ID, Did: strings.TrimSpace(cause.Remedy.Do), Parts: cause.Remedy.Parts}},
		say: []string{"Now it is proved: the deciding reading again, then what the sign needs."}}, nil
}
