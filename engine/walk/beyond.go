package walk

import (
	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// tooFar says why the aim cannot be met by these hands with these instruments,
// whatever is done first; nil if it can.
func (j *Job) tooFar(a *aim) *safety.Refusal {
	return safety.Available(j.context(), j.world, a.thing(j))
}

// askBeyond offers the ways on from a step that is not for these hands. What
// the step would have been is not worded: it is no instruction.
func askBeyond(j *Job) *Ask {
	a := j.aim()
	if a == nil || a.check == nil || a.step == nil {
		return nil
	}
	r := j.tooFar(a)
	if r == nil {
		return nil
	}
	ask := &Ask{ID: "beyond", Kind: Choose, Title: "The next step cannot be taken here", Body: []string{upper(r.Why) + "."}}
	ask.Body = append(ask.Body, j.possibleWords()...)
	if leads(a.step.Otherwise) != "" {
		ask.Choices = append(ask.Choices, Choice{ID: "on", Text: "go on without it"})
	}
	if j.deadStep() != nil {
		ask.Choices = append(ask.Choices, Choice{ID: "dead", Text: "answer the same question with everything off"})
	}
	ask.Choices = append(ask.Choices, Choice{ID: "hands", Text: "other hands take over"}, Choice{ID: "refer", Text: "pass the job on"})
	return ask
}

func takeBeyond(j *Job, x Answer) (taken, error) {
	c, err := pick(askBeyond(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	a := j.aim()
	r := j.tooFar(a)
	switch c {
	case "hands":
		return j.handOver()
	case "dead":
		return j.deadWay()
	case "refer":
		return j.passOn(r.Referral, r.Why), nil
	}
	return taken{bodies: []any{&journal.Skipped{Step: a.step.Path, Check: a.check.ID, Why: r.Why}}}, nil
}

// deadStep is the step that answers the present one's question dead, if these
// hands may take it; nil otherwise.
func (j *Job) deadStep() *trees.Bound {
	m := j.mind
	if m.graph == nil || m.place.Go == "" {
		return nil
	}
	s := m.graph.Steps[m.graph.Steps[m.place.Go].Dead]
	if s == nil || j.outOfReach(s.Check) {
		return nil
	}
	return s
}

func (j *Job) deadWay() (taken, error) {
	return taken{bodies: []any{&journal.Turned{To: j.deadStep().Path, Why: "the same question, answered dead"}}}, nil
}
