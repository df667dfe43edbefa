package walk

import (
	"fmt"
	"slices"
	"strconv"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
)

// batch is the next stretch of acts of one kind of work; empty if nothing is
// to be done first.
func (j *Job) batch() ([]journal.Act, *aim) {
	a := j.aim()
	if a == nil || !a.restore && !a.isolate && j.tooFar(a) != nil {
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
	ask := &Ask{ID: "acts", Kind: Choose, Title: j.stageTitle(acts[0]), Cautions: j.cautionsFor(acts...)}
	if (acts[0].Do == journal.ActUnlock || acts[0].Do == journal.ActSwitchOn) && !j.uncovered() {
		ask.Title = "Power back"
	}
	for i, act := range acts {
		ask.Minutes += ActMinutes(act)
		ask.Body = append(ask.Body, fmt.Sprintf("  %d. %s", i+1, upper(j.actWords(act))))
	}
	if w := j.towards(a); w != "" {
		ask.Body = append(ask.Body, w)
	}
	done := "done, in this order"
	if len(acts) == 1 {
		done = "done"
	}
	ask.Choices = []Choice{{ID: "done", Text: done}}
	if len(doubtful(acts)) > 0 {
		ask.Choices = append(ask.Choices, Choice{ID: "cannot", Text: "cannot be done"})
	}
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
	return j.takeList(acts, a)
}

// takeList records acts as done in their order, or asks which could not be.
func (j *Job) takeList(acts []journal.Act, a Answer) (taken, error) {
	switch a.Choice {
	case "done":
		return j.did(acts)
	case "cannot":
		which := doubtful(acts)
		if len(which) == 1 {
			return j.cannot(acts, which[0])
		}
		if len(which) > 1 {
			j.aside = whichStage(acts, which)
			return taken{}, nil
		}
	}
	return taken{}, &Refused{`expected done or cannot`}
}

// doubtful lists which acts may turn out to be impossible: time can always be waited.
func doubtful(acts []journal.Act) []int {
	var out []int
	for i, a := range acts {
		if a.Do != journal.ActWait {
			out = append(out, i)
		}
	}
	return out
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

// whichStage asks which act of a list could not be done.
func whichStage(acts []journal.Act, which []int) *stage {
	return &stage{"which", func(j *Job) *Ask {
		a := &Ask{ID: "which", Kind: Choose, Title: "Which could not be done? What stands before it counts as done."}
		for _, i := range which {
			a.Choices = append(a.Choices, Choice{ID: strconv.Itoa(i + 1), Text: j.actWords(acts[i])})
		}
		return a
	}, func(j *Job, a Answer) (taken, error) {
		n, err := strconv.Atoi(a.Choice)
		if err != nil || !slices.Contains(which, n-1) {
			return taken{}, &Refused{"expected the number of one of these acts"}
		}
		return j.cannot(acts, n-1)
	}}
}
