package walk

import (
	"fmt"
	"strings"
	"time"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"
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

func cautionWords(a *Ask) []string {
	var out []string
	for _, c := range a.Cautions {
		out = append(out, "! "+c.Words)
	}
	if len(out) == 0 {
		return []string{"No caution stands here."}
	}
	return out
}

// why says what this question is for and how the walk came here.
func (j *Job) why() []string {
	var out []string
	if a := j.aim(); a != nil && a.check != nil {
		if a.step != nil && a.step.Why != "" {
			out = append(out, a.step.Why)
		}
		if a.check.Why != "" {
			out = append(out, a.check.Why)
		}
		if a.check.Else != "" {
			out = append(out, "What else could read the same: "+a.check.Else)
		}
		if a.check.Check.Source != "" {
			out = append(out, "Where it comes from: "+a.check.Check.Source)
		}
	}
	if n := len(j.mind.trail); n > 0 {
		p := j.mind.trail[n-1]
		if p.read != nil && p.branch >= 0 {
			out = append(out, "It came here because "+checkName(p.read.check)+" gave "+j.readWords(p.read)+": "+p.step.Branches[p.branch].Meaning+".")
		}
	}
	if len(out) == 0 {
		return []string{"It is asked of every job before anything is touched."}
	}
	return out
}

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
			if b.Ask == "hand over" {
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
	n := j.lastTaken()
	if n == 0 {
		return taken{}, &Refused{"nothing here can be taken back; what was done to the plant stays done"}
	}
	return taken{bodies: []any{&journal.Retracted{Event: n}}, say: []string{"Taken back. The plant stays as it is."}}, nil
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

// early takes a reading known beforehand: CHECK=VALUE, several values of one
// check parted by a slash, a look by its answer.
func (j *Job) early(text string) (taken, error) {
	name, values, ok := strings.Cut(text, "=")
	if !ok || j.mind.graph == nil {
		return taken{}, &Refused{"expected CHECK=VALUE, such as: supply-triple at unit-isolator=231/231/0.4"}
	}
	ref, err := trees.ParseRef(strings.TrimSpace(name))
	if err != nil {
		return taken{}, &Refused{err.Error()}
	}
	c := j.mind.graph.Check(ref.String())
	if c == nil {
		return taken{}, &Refused{fmt.Sprintf("this tree takes no check %q on this plant", ref)}
	}
	b := &journal.Read{Check: c.ID, Measured: c.Measured(), Purpose: journal.ForEarly, Verdict: "taken before it was asked for"}
	if len(c.Probes) == 0 {
		b.Answer = strings.TrimSpace(values)
		if !answers(c, b.Answer) {
			return taken{}, &Refused{fmt.Sprintf("%q is no answer to %s", b.Answer, checkName(c))}
		}
		return taken{bodies: []any{b}}, nil
	}
	return j.earlyValues(c, b, strings.Split(values, "/"))
}

func answers(c *trees.BoundCheck, id string) bool {
	for _, a := range c.Answers {
		if a.ID == id {
			return true
		}
	}
	return false
}

func (j *Job) earlyValues(c *trees.BoundCheck, b *journal.Read, typed []string) (taken, error) {
	if len(typed) > len(c.Probes) {
		return taken{}, &Refused{fmt.Sprintf("%s takes at most %d readings, parted by /", c.ID, len(c.Probes))}
	}
	for i, t := range typed {
		r, err := measurements.Parse(c.Quantity, t)
		if err != nil {
			return taken{}, &Refused{err.Error()}
		}
		o, ok := j.using(c, c.Probes[i])
		if !ok {
			return taken{}, &Refused{"no instrument of the kit reads " + c.ID}
		}
		v := journal.Value{As: c.Probes[i].As, Mode: o.mode, Meter: o.meter.ID, Typed: r.Typed, Low: r.Value.Lo, High: r.Value.Hi, Open: r.Open, Moving: r.Moving}
		if r.Open {
			v.Low = o.spec.Top()
		}
		b.Values = append(b.Values, v)
	}
	return taken{bodies: []any{b}, say: []string{"Taken in: " + c.ID + "."}}, nil
}

// TakeUp is the event that resumes a stopped job: every proof and every wait is void.
func (j *Job) TakeUp(by string, at time.Time) journal.Event {
	return j.number([]any{&journal.Resumed{Build: j.lib.Build, Trees: j.lib.Set.Hash()}}, by, at)[0]
}
