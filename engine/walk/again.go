package walk

import "faultwalk/engine/journal"

// askAgain offers one more try where a reading lies across an edge.
func askAgain(j *Job) *Ask {
	a := j.aim()
	if a == nil || a.check == nil || len(a.check.Probes) == 0 {
		return nil
	}
	r := j.mind.now[a.check.ID]
	if r == nil || len(r.values) < len(a.check.Probes) || j.mind.told("again "+a.check.ID) == "again" {
		return nil
	}
	ask := &Ask{ID: "again", Kind: Choose, Title: "That reading does not decide", Body: []string{j.readWords(r) + " lies too near an edge for this meter."}}
	if a.step != nil {
		for _, b := range j.judge(a.step, r).touches {
			if b >= 0 {
				ask.Body = append(ask.Body, "  - "+a.step.Branches[b].Meaning)
			}
		}
	}
	ask.Choices = []Choice{{ID: "again", Text: "measure again in a steadier state"}}
	if o := j.otherMeter(); o != nil {
		in, _ := j.kit().Instrument(o.Choice)
		ask.Choices = append(ask.Choices, Choice{ID: "other", Text: "measure again with the " + in.Name + ", " + o.Values["mode"]})
	}
	if a.step != nil {
		ask.Choices = append(ask.Choices, Choice{ID: "leave", Text: "leave it undecided"})
	} else {
		ask.Choices = append(ask.Choices, Choice{ID: "fails", Text: "count it as not passed"})
	}
	return ask
}

func takeAgain(j *Job, x Answer) (taken, error) {
	c, err := pick(askAgain(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	a := j.aim()
	if c == "leave" {
		return taken{bodies: []any{&journal.Skipped{Step: a.step.Path, Check: a.check.ID, Why: "the reading does not decide"}}}, nil
	}
	if c == "other" {
		return taken{bodies: []any{j.otherMeter(), j.mind.tell("again "+a.check.ID, "again")}}, nil
	}
	return taken{bodies: []any{j.mind.tell("again "+a.check.ID, c)}}, nil
}
