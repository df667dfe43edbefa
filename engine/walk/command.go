package walk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"faultwalk/engine/journal"
)

// commands are what may be typed instead of an answer to this question.
func (j *Job) commands(a *Ask) []Choice {
	var out []Choice
	add := func(offer bool, id, text string) {
		if offer {
			out = append(out, Choice{ID: id, Text: text})
		}
	}
	m := j.mind
	settled := j.aside == nil // no answer stands half given
	walking := settled && m.graph != nil && m.finish == nil && !intake(a)
	add(settled, "why", "why this is asked, and what else could read the same")
	add(!settled || j.lastTaken() > 0, "back", "take the last answer or reading back; the plant stays as it is")
	add(walking && j.skippable(a), "skip", "leave this step out")
	add(walking && a.ID != "beyond" && j.skippable(a) && j.deadStep() != nil, "dead way", "answer the same question with everything off")
	add(settled && a.ID == "reading" && j.otherMeter() != nil, "other meter", "take this reading with another instrument or mode")
	add(walking, "reading", "give a reading taken already: reading CHECK=VALUE")
	add(settled, "note", "write a remark: note TEXT")
	add(settled && m.hands.Kind != "" && !m.handing && m.finish == nil, "hand over", "other hands take over")
	add(true, "cautions", "read the cautions in full")
	add(true, "stop", "stop now; the job can be resumed")
	add(walking, "give up", "end the job without a result")
	return out
}

// skippable says whether the question belongs to a step of the tree, that could
// be left out.
func (j *Job) skippable(a *Ask) bool {
	m := j.mind
	if m.place.Go == "" || len(m.retests) > 0 || m.closeUp != "" {
		return false
	}
	return slices.Contains([]string{"acts", "prove", "look", "reading", "again", "beyond"}, a.ID)
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
	if !slices.ContainsFunc(j.commands(ask), func(c Choice) bool { return c.ID == a.Command }) {
		if a.Command == "back" {
			return taken{}, &Refused{"nothing here can be taken back; what was done to the plant stays done"}
		}
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
		return taken{bodies: []any{j.otherMeter()}}, nil
	case "reading":
		return j.early(a.Rest)
	case "note":
		return note(a.Rest)
	case "hand over":
		return j.handOver()
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
	s := j.mind.graph.Steps[j.mind.place.Go]
	if why == "" {
		why = "left out"
	}
	return taken{bodies: []any{&journal.Skipped{Step: s.Path, Check: s.Check.ID, Why: why}}}, nil
}

// TakeUp is the event that resumes a stopped job: every proof and every wait is void.
func (j *Job) TakeUp(by string, at time.Time) journal.Event {
	return j.number([]any{&journal.Resumed{Build: j.lib.Build, Trees: j.lib.Set.Hash()}}, by, at)[0]
}
