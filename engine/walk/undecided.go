package walk

import (
	"fmt"
	"strings"

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
	ask := &Ask{ID: "beyond", Kind: Choose, Title: "The next step cannot be taken here", Body: []string{r.Why}}
	if leads(a.step.Otherwise) != "" {
		ask.Choices = append(ask.Choices, Choice{ID: "on", Text: "go on without it"})
	}
	if a.step.Dead != "" {
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
	why := j.tooFar(a).Why
	switch c {
	case "hands":
		return taken{bodies: []any{&journal.Answered{Ask: "hand over", Choice: "yes"}}}, nil
	case "dead":
		return taken{bodies: []any{&journal.Turned{To: a.step.Dead, Why: "the same question, answered dead"}}}, nil
	case "refer":
		return taken{bodies: []any{&journal.Answered{Ask: "referral", Choice: "beyond", Values: map[string]string{"why": why}}}}, nil
	}
	return taken{bodies: []any{&journal.Skipped{Step: a.step.Path, Check: a.check.ID, Why: why}}}, nil
}

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
	ask.Choices = []Choice{{ID: "again", Text: "measure again: another instrument, or a steadier state"}}
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
	return taken{bodies: []any{j.mind.tell("again "+a.check.ID, c)}}, nil
}

// askFound stands while a voltage found at a proof is not cleared: one repeat
// under load where that is allowed, then what may feed it is isolated.
func askFound(j *Job) *Ask {
	if j.world == nil || j.world.Found == nil || j.mind.closed != nil {
		return nil
	}
	f := j.world.Found
	ask := &Ask{ID: "voltage found", Kind: Choose, Title: "Voltage found: hands out of " + j.mind.plant.Words(f.Enclosure),
		Cautions: j.cautions("cover", "dead"),
		Body:     []string{fmt.Sprintf("%s: %.1f V. It is not dead, and never only a ghost.", f.Line, f.Volts)}}
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
			ask.Choices = append(ask.Choices, Choice{ID: d.ID, Text: "this may feed it: " + d.Words + " (" + d.Where + "), switched off and locked now"})
		}
	}
	if j.isolatedMore() {
		ask.Choices = append(ask.Choices, Choice{ID: "prove", Text: "prove it again"})
	}
	ask.Choices = append(ask.Choices, Choice{ID: "refer", Text: "pass the job on: nothing more is touched"})
	return ask
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
		r := j.lib.Set.Referrals["voltage-found"]
		return taken{bodies: []any{&journal.Closed{As: journal.Referred, Words: r.Words, To: r.To}}, say: stopWords(r)}, nil
	case "prove":
		form := safety.Form(j.mind.plant, f.Enclosure)
		j.aside = &stage{"prove", func(j *Job) *Ask { return j.proveAsk(journal.Act{Do: journal.ActProve, On: f.Enclosure}) },
			func(j *Job, y Answer) (taken, error) {
				values, err := readForm(form, y.Fields)
				if err != nil {
					return taken{}, err
				}
				return j.proof(journal.Act{Do: journal.ActProve, On: f.Enclosure}, form, values)
			}}
		return taken{}, nil
	}
	return j.did(j.isolating(c))
}

// isolating is how one more device is taken out, the demand stopped first.
func (j *Job) isolating(device string) []journal.Act {
	acts := safety.PlanStop(j.context(), j.world)
	for _, do := range []string{journal.ActSwitchOff, journal.ActLock} {
		acts = append(acts, journal.Act{Do: do, On: device})
	}
	return acts
}

// askReferral stops or passes the job on, with the reason and what is left.
func askReferral(j *Job) *Ask {
	r := j.mind.place.Refer
	if r == nil || j.mind.graph == nil {
		return nil
	}
	ask := &Ask{ID: "referral", Kind: Choose, Title: "This goes to somebody else: " + r.Words, Body: []string{"To: " + r.To}}
	if r.Stop {
		ask.Title, ask.Cautions = "Stop: "+r.Words, j.cautions("danger")
	}
	if r.Leave != "" {
		ask.Body = append(ask.Body, "Leave it like this: "+r.Leave)
	}
	if left := j.reachable(); len(left) > 0 && !r.Stop {
		ask.Body = append(ask.Body, "Still possible: "+strings.Join(left, "; ")+".")
	}
	if j.mind.hands.Phone && r.Say != "" {
		ask.Body = append(ask.Body, "Say: “"+strings.TrimSpace(r.Say)+"”")
	}
	ask.Choices = []Choice{{ID: "refer", Text: "pass it on"}}
	return ask
}

func takeReferral(j *Job, x Answer) (taken, error) {
	if _, err := pick(askReferral(j).Choices, x); err != nil {
		return taken{}, err
	}
	return taken{bodies: []any{j.mind.tell("referral", "refer")}}, nil
}

// askPass goes on to another sign's tree.
func askPass(j *Job) *Ask {
	to := j.lib.Set.Symptoms[j.mind.place.Pass]
	if to == nil || j.mind.graph == nil {
		return nil
	}
	return &Ask{ID: "pass", Kind: Choose, Title: "This is another sign: " + to.Sign,
		Body:    []string{"What was read so far still counts."},
		Choices: []Choice{{ID: "on", Text: "go on with that"}, {ID: "refer", Text: "pass the job on"}}}
}

func takePass(j *Job, x Answer) (taken, error) {
	c, err := pick(askPass(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	if c == "refer" {
		return taken{bodies: []any{j.mind.tell("referral", "refer")}}, nil
	}
	return taken{bodies: []any{&journal.Turned{To: j.mind.place.Pass, Why: "the readings lead to another sign"}}}, nil
}

// reachable lists the words of the causes that can still be reached from the
// step that could not be answered, or from where the walk stands.
func (j *Job) reachable() []string {
	m := j.mind
	seen := map[string]bool{}
	var out []string
	add := func(t trees.Target) {
		for _, c := range m.graph.Causes(t) {
			if !seen[c.ID] {
				seen[c.ID] = true
				out = append(out, c.Words)
			}
		}
	}
	add(m.place)
	for _, p := range m.trail {
		if p.branch < 0 && p.read == nil {
			for _, br := range p.step.Branches {
				add(br.To)
			}
		}
	}
	return out
}
