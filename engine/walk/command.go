package walk

import (
	"fmt"
	"strings"
	"time"

	"faultwalk/engine/journal"
)

// commands are what may be typed instead of an answer to this question.
func (j *Job) commands(a *Ask) []Choice {
	out := []Choice{{ID: "why", Text: "why this is asked, and what else could read the same"}}
	if j.lastTaken() > 0 {
		out = append(out, Choice{ID: "back", Text: "take the last answer or reading back; the plant stays as it is"})
	}
	if j.walking(a) {
		out = append(out, Choice{ID: "skip", Text: "leave this step out"})
		if s := j.mind.graph.Steps[j.mind.place.Go]; s.Dead != "" {
			out = append(out, Choice{ID: "dead way", Text: "answer the same question with everything off"})
		}
	}
	if a.ID == "reading" {
		out = append(out, Choice{ID: "other meter", Text: "take this reading with another instrument or mode"})
	}
	if j.mind.graph != nil && j.mind.finish == nil && !intake(a) {
		out = append(out, Choice{ID: "reading", Text: "give a reading taken already: reading CHECK=VALUE"})
	}
	out = append(out, Choice{ID: "note", Text: "write a remark: note TEXT"})
	if j.mind.hands.Kind != "" && j.mind.finish == nil {
		out = append(out, Choice{ID: "hand over", Text: "other hands take over"})
	}
	out = append(out, Choice{ID: "cautions", Text: "read the cautions in full"},
		Choice{ID: "stop", Text: "stop now; the job can be resumed"})
	if j.mind.finish == nil && j.mind.graph != nil && !intake(a) {
		out = append(out, Choice{ID: "give up", Text: "end the job without a result"})
	}
	return out
}

// walking says whether a step of the tree stands, that could be left out.
func (j *Job) walking(a *Ask) bool {
	m := j.mind
	return m.graph != nil && m.place.Go != "" && m.finish == nil && len(m.retests) == 0 && !intake(a)
}

// intake says whether a question belongs to what is asked before any tree.
func intake(a *Ask) bool {
	if strings.HasPrefix(a.ID, "fact ") {
		return true
	}
	for _, s := range intakeStages() {
		if s.id == a.ID {
			return true
		}
	}
	return false
}

func (j *Job) command(ask *Ask, a Answer) (taken, error) {
	known := false
	for _, c := range j.commands(ask) {
		known = known || c.ID == a.Command
	}
	if !known {
		return taken{}, &Refused{fmt.Sprintf("%s is not possible here", a.Command)}
	}
	switch a.Command {
	case "why":
		return taken{say: j.why()}, nil
	case "cautions":
		return taken{say: cautionWords(ask)}, nil
	case "back":
		return j.back()
	case "skip":
		return j.skipping(strings.TrimSpace(a.Rest))
	case "dead way":
		return j.deadWay()
	case "other meter":
		return j.otherMeter()
	case "reading":
		return j.early(a.Rest)
	case "note":
		return note(a.Rest)
	case "hand over":
		return taken{bodies: []any{&journal.Answered{Ask: "hand over", Choice: "yes"}}}, nil
	case "stop":
		return taken{bodies: []any{&journal.Stopped{}}}, nil
	}
	return taken{bodies: []any{&journal.Answered{Ask: "give up", Choice: "yes", Values: map[string]string{"why": strings.TrimSpace(a.Rest)}}}}, nil
}

func note(text string) (taken, error) {
	if text = strings.TrimSpace(text); text == "" {
		return taken{}, &Refused{"expected the words after it: note TEXT"}
	}
	return taken{bodies: []any{&journal.Noted{Text: text}}, say: []string{"Noted."}}, nil
}

func (j *Job) skipping(why string) (taken, error) {
	a := j.aim()
	if a == nil || a.step == nil {
		return taken{}, &Refused{"there is no step to leave out here"}
	}
	if why == "" {
		why = "left out"
	}
	return taken{bodies: []any{&journal.Skipped{Step: a.step.Path, Check: a.step.Check.ID, Why: why}}}, nil
}

func (j *Job) deadWay() (taken, error) {
	s := j.mind.graph.Steps[j.mind.place.Go]
	return taken{bodies: []any{&journal.Turned{To: s.Dead, Why: "the same question, answered dead"}}}, nil
}

// otherMeter takes the next way to read the pending probe.
func (j *Job) otherMeter() (taken, error) {
	a := j.aim()
	p := j.pending(a)
	if len(j.options(a.check, *p)) < 2 {
		return taken{}, &Refused{"no other instrument of the kit may be used here"}
	}
	j.meters[a.check.ID+"\n"+p.As]++
	return taken{}, nil
}

// TakeUp is the event that resumes a stopped job: every proof and every wait is void.
func (j *Job) TakeUp(by string, at time.Time) journal.Event {
	return j.number([]any{&journal.Resumed{Build: j.lib.Build, Trees: j.lib.Set.Hash()}}, by, at)[0]
}
