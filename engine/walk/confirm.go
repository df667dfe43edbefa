package walk

import "faultwalk/trees"

// confirming is the cause whose second reading stands next; nil if there is
// none, it was read, or the person goes without.
func (j *Job) confirming() *trees.BoundCause {
	m := j.mind
	if len(m.place.Causes) != 1 || m.told("result") != "" || len(m.retests) > 0 {
		return nil
	}
	c := m.place.Causes[0]
	if c.Confirm == nil || c.Confirm.Check == nil || m.told("confirm") != "take" || m.told("again "+c.Confirm.Check.ID) == "fails" {
		return nil
	}
	if r := m.now[c.Confirm.Check.ID]; r != nil {
		if _, decided := j.holds(r, c.Confirm.If.Value); decided || r.tried > 0 && len(r.values) == len(c.Confirm.Check.Probes) {
			return nil
		}
	}
	if j.outOfReach(c.Confirm.Check) {
		return nil
	}
	return c
}

// askConfirm offers a second reading that the nearest rival would contradict.
func askConfirm(j *Job) *Ask {
	m := j.mind
	if len(m.place.Causes) != 1 || m.told("confirm") != "" || m.told("result") != "" || len(m.retests) > 0 {
		return nil
	}
	c := m.place.Causes[0]
	if c.Confirm == nil || c.Confirm.Check == nil || m.now[c.Confirm.Check.ID] != nil {
		return nil
	}
	if j.outOfReach(c.Confirm.Check) {
		return nil
	}
	ask := &Ask{ID: "confirm", Kind: Choose, Title: "Likely: " + c.Words, Minutes: c.Confirm.Check.Check.Minutes}
	ask.Body = []string{j.decidingWords()}
	if c.Confirm.Rival != "" {
		ask.Body = append(ask.Body, "Could also be: "+c.Confirm.Rival+". One more reading would tell them apart: "+confirmName(c.Confirm.Check))
	}
	ask.Choices = []Choice{{ID: "take", Text: "take the second reading"}, {ID: "without", Text: "go without it"}}
	return ask
}

func confirmName(c *trees.BoundCheck) string {
	if c.Look != "" {
		return c.Look
	}
	if len(c.Probes) > 0 && c.Probes[0].From != nil {
		return quantityWords(c.Quantity) + " at " + c.Probes[0].From.Name()
	}
	return c.ID
}

func takeConfirm(j *Job, x Answer) (taken, error) {
	c, err := pick(askConfirm(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	return taken{bodies: []any{j.mind.tell("confirm", c)}}, nil
}

// confirmWords says what the second reading makes of a cause.
func (j *Job) confirmWords(c *trees.BoundCause, r *reading) string {
	holds, decided := j.holds(r, c.Confirm.If.Value)
	switch {
	case !decided:
		return "not decided by this alone"
	case holds && c.Confirm.Rival != "":
		return "this fits; “" + c.Confirm.Rival + "” would have read otherwise"
	case holds:
		return "this fits"
	}
	return "this does not fit: “" + c.Words + "” would have read otherwise"
}

// contradicted says whether the second reading speaks against the cause.
func (j *Job) contradicted(c *trees.BoundCause) bool {
	if c.Confirm == nil || c.Confirm.Check == nil {
		return false
	}
	r := j.mind.now[c.Confirm.Check.ID]
	if r == nil {
		return false
	}
	holds, decided := j.holds(r, c.Confirm.If.Value)
	return decided && !holds
}
