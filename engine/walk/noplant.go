package walk

import (
	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// noPlant is the answer of those whose plant is none of these.
const noPlant = "none"

// askPlant offers every plant, with what disagreed where that was found, and a
// way out once none is left or something was not known.
func askPlant(j *Job) *Ask {
	a := &Ask{Kind: Choose, Title: "Which plant is it?"}
	for _, id := range j.plantIDs() {
		c := Choice{ID: id, Text: j.lib.Set.Plants[id].Is}
		if why := j.mind.unlike[id]; why != "" {
			c.Detail = "Not this one so far: " + why + "."
		}
		a.Choices = append(a.Choices, c)
	}
	if j.mind.unsure || len(j.mind.unlike) == len(a.Choices) {
		a.Choices = append(a.Choices, Choice{ID: noPlant, Text: "none of these: look and listen only"})
	}
	return a
}

// askNoPlant passes the job on where the plant is none of these: what a reading
// should be is not known there.
func askNoPlant(j *Job) *Ask {
	if j.answer("plant") != noPlant {
		return nil
	}
	r := j.unknownPlant()
	ask := &Ask{Kind: Choose, Title: "This goes to somebody else: " + r.Words, Body: j.sayWords(r.Say)}
	for _, id := range j.plantIDs() {
		if why := j.mind.unlike[id]; why != "" {
			ask.Body = append(ask.Body, "  - "+j.lib.Set.Plants[id].Is+": "+why+".")
		}
	}
	ask.Body = append(ask.Body, j.leaveWords(r)...)
	ask.Choices = []Choice{{ID: "refer", Text: "pass the job on"}}
	return ask
}

func takeNoPlant(j *Job, x Answer) (taken, error) {
	if _, err := pick(askNoPlant(j).Choices, x); err != nil {
		return taken{}, err
	}
	r := j.unknownPlant()
	return taken{bodies: []any{&journal.Closed{As: journal.Referred, Words: r.Words, To: r.To}}}, nil
}

func (j *Job) unknownPlant() *trees.Referral {
	return &trees.Referral{ID: "unknown-plant", Words: "the plant is none of those known here, so only looking and listening is left",
		To: "an electrically competent person who knows this arrangement, with what was seen and heard", Leave: "everything closed and set as it was found",
		Say: "Please leave everything as it is and open nothing. Tell me what you see and hear, and I will pass it on to somebody who knows your system."}
}
