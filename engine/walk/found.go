package walk

import (
	"fmt"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
)

// askFound stands while a voltage found at a proof is not cleared: one repeat
// under load where that is allowed, then what may feed it is isolated.
func askFound(j *Job) *Ask {
	if j.world == nil || j.world.Found == nil || j.mind.finish != nil || j.mind.closed != nil {
		return nil
	}
	f := j.world.Found
	ask := &Ask{ID: "voltage found", Kind: Choose, Title: "Voltage found: hands out of " + j.mind.plant.Words(f.Enclosure),
		Cautions: j.cautions("cover", "dead"),
		Body:     []string{j.foundBody(f)}}
	if f.Lit {
		ask.Title = "The screen is lit: hands out of " + j.mind.plant.Words(f.Enclosure)
	}
	if f.Repeated {
		ask.Body = append(ask.Body, heldWords(f))
	}
	if rep := safety.RepeatForm(j.mind.plant, j.world); len(rep) == 1 && j.world.Finds < 2 {
		ask.Kind, ask.Title = Fill, "Voltage found: one repeat under load, hands out otherwise"
		ask.Fields = []Field{formField(rep[0])}
		return ask
	}
	if cs := safety.Candidates(j.mind.plant, j.world); j.world.Finds < 2 {
		for _, d := range cs {
			ask.Choices = append(ask.Choices, Choice{ID: d.ID, Text: "this may feed it, switch it off and lock it: " + d.Words + " (" + d.Where + ")"})
		}
	}
	if j.isolatedMore() {
		ask.Choices = append(ask.Choices, Choice{ID: "prove", Text: "prove it again"})
	}
	ask.Choices = append(ask.Choices, Choice{ID: "refer", Text: "pass the job on: nothing more is touched"})
	return ask
}

// foundBody says what was found and that it is not dead.
func (j *Job) foundBody(f *safety.Found) string {
	if f.Lit {
		return upper(screenLit) + ": the board's supply, which comes here, is on. It is not dead, whatever the tester says."
	}
	return fmt.Sprintf("%s: %.1f V. It is not dead, and never only a ghost.", upper(j.foundAt()), f.Volts)
}

// foundAt says between which points a voltage was found.
func (j *Job) foundAt() string {
	f, p := j.world.Found, j.mind.plant
	if from, to := p.Point(f.From), p.Point(f.To); from != nil && to != nil {
		return from.Name() + " to " + to.Name()
	}
	return lineNamed(safety.Form(p, f.Enclosure), f.Line)
}

func heldWords(f *safety.Found) string {
	if f.Held > safety.FoundAbove {
		return fmt.Sprintf("Under load it held at %.1f V: this core is live.", f.Held)
	}
	return fmt.Sprintf("Under load it fell to %.1f V: a live core runs beside it. Find that one and isolate it too.", f.Held)
}

func (j *Job) isolatedMore() bool {
	act := journal.Act{Do: journal.ActProve, On: j.world.Found.Enclosure}
	return safety.Guard(j.context(), j.world, safety.OfAct(act)) == nil
}

func takeFound(j *Job, x Answer) (taken, error) {
	ask := askFound(j)
	f := j.world.Found
	if ask.Kind == Fill {
		form := safety.RepeatForm(j.mind.plant, j.world)
		values, err := readForm(form, x.Fields)
		if err != nil {
			return taken{}, err
		}
		return taken{bodies: []any{&journal.Acted{Act: journal.Act{Do: journal.ActProve, On: f.Enclosure}, Outcome: journal.Found, Form: values}}}, nil
	}
	c, err := pick(ask.Choices, x)
	if err != nil {
		return taken{}, err
	}
	switch c {
	case "refer":
		return j.passOn(foundReferral, j.lib.Set.Referrals[foundReferral].Words), nil
	case "prove":
		act := journal.Act{Do: journal.ActProve, On: f.Enclosure}
		j.aside = &stage{"prove", func(j *Job) *Ask { return j.proveAsk(act) }, func(j *Job, y Answer) (taken, error) { return j.takeProof(act, y) }}
		return taken{}, nil
	}
	acts := j.isolating(c)
	j.aside = &stage{"acts", func(j *Job) *Ask {
		ask := j.actsAsk(acts, &aim{})
		ask.Title = "Isolate what may feed it"
		return ask
	}, func(j *Job, y Answer) (taken, error) { return j.takeList(acts, y) }}
	return taken{}, nil
}

// isolating is how one more device is taken out, the demand stopped first.
func (j *Job) isolating(device string) []journal.Act {
	acts := safety.PlanStop(j.context(), j.world)
	for _, do := range []string{journal.ActSwitchOff, journal.ActLock} {
		acts = append(acts, journal.Act{Do: do, On: device})
	}
	return acts
}
