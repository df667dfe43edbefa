package walk

import (
	"fmt"
	"strconv"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
)

// batch is the next stretch of acts of one kind of work; empty if nothing is
// to be done first.
func (j *Job) batch() ([]journal.Act, *aim) {
	a := j.aim()
	if a == nil || a.check != nil && j.tooFar(a) != nil {
		return nil, nil
	}
	stages := safety.Stage(j.plan(a))
	if len(stages) == 0 {
		return nil, a
	}
	return stages[0], a
}

func askActs(j *Job) *Ask {
	acts, a := j.batch()
	if len(acts) == 0 || a.restore || a.isolate {
		return nil
	}
	return j.actsAsk(acts, a)
}

func (j *Job) actsAsk(acts []journal.Act, a *aim) *Ask {
	if acts[0].Do == journal.ActProve {
		return j.proveAsk(acts[0])
	}
	ask := &Ask{ID: "acts", Kind: Choose, Title: stageTitle(acts[0].Do), Cautions: j.cautionsFor(acts...)}
	for i, act := range acts {
		ask.Minutes += actMinutes(act)
		ask.Body = append(ask.Body, fmt.Sprintf("  %d. %s", i+1, upper(j.actWords(act))))
	}
	if w := j.towards(a); w != "" {
		ask.Body = append(ask.Body, w)
	}
	done := "done, in this order"
	if len(acts) == 1 {
		done = "done"
	}
	ask.Choices = []Choice{{ID: "done", Text: done}, {ID: "cannot", Text: "cannot be done"}}
	return ask
}

// takeActs records the acts of a batch, a proof, or which of them could not be done.
func takeActs(j *Job, a Answer) (taken, error) {
	acts, _ := j.batch()
	if len(acts) == 0 {
		return taken{}, &Refused{"nothing is to be done here"}
	}
	if acts[0].Do == journal.ActProve {
		return j.takeProof(acts[0], a)
	}
	switch a.Choice {
	case "done":
		return j.did(acts)
	case "cannot":
		if len(acts) == 1 {
			return j.cannot(acts, 0)
		}
		j.aside = &stage{"which", askWhich, takeWhich}
		return taken{}, nil
	}
	return taken{}, &Refused{`expected done or cannot`}
}

func (j *Job) did(acts []journal.Act) (taken, error) {
	var t taken
	w := j.world.Clone()
	for _, act := range acts {
		if r := safety.Guard(j.context(), w, safety.OfAct(act)); r != nil {
			return taken{}, &Refused{r.Why}
		}
		b := &journal.Acted{Act: act, Outcome: journal.Done, Cautions: ids(j.cautionsFor(act))}
		w.Apply(journal.Event{Kind: journal.KindActed, Body: b})
		t.bodies = append(t.bodies, b)
	}
	return t, nil
}

// cannot records the acts before the i-th as done and that one as impossible.
func (j *Job) cannot(acts []journal.Act, i int) (taken, error) {
	t, err := j.did(acts[:i])
	if err != nil {
		return t, err
	}
	t.bodies = append(t.bodies, &journal.Acted{Act: acts[i], Outcome: journal.Cannot, Why: "could not be done"})
	t.say = append(t.say, "Noted. What needed it is left out.")
	return t, nil
}

func askWhich(j *Job) *Ask {
	acts, _ := j.batch()
	a := &Ask{ID: "which", Kind: Choose, Title: "Which could not be done? What stands before it counts as done."}
	for i, act := range acts {
		a.Choices = append(a.Choices, Choice{ID: strconv.Itoa(i + 1), Text: j.actWords(act)})
	}
	return a
}

func takeWhich(j *Job, a Answer) (taken, error) {
	acts, _ := j.batch()
	n, err := strconv.Atoi(a.Choice)
	if err != nil || n < 1 || n > len(acts) {
		return taken{}, &Refused{fmt.Sprintf("expected a number from 1 to %d", len(acts))}
	}
	return j.cannot(acts, n-1)
}
