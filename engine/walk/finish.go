package walk

import (
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
)

// ending notes that an answer ends the job, and how.
func (j *Job) ending(b *journal.Answered) {
	m := j.mind
	switch {
	case b.Ask == "give up":
		m.finish = &finish{as: journal.Abandoned, words: b.Values["why"]}
	case b.Ask == "referral" && b.Choice == "beyond":
		m.finish = &finish{as: journal.Referred, words: b.Values["why"], referral: j.referral(b.Values["referral"])}
	case b.Ask == "referral" && m.place.Refer != nil:
		m.finish = &finish{as: journal.Referred, words: m.place.Refer.Words, referral: m.place.Refer}
	case b.Ask == "referral":
		m.finish = &finish{as: journal.Referred, words: "the readings lead to another sign"}
	case b.Choice == "leave":
		m.finish = &finish{as: journal.LeftSafe, words: causeWords(m.place.Causes)}
	case b.Choice == "refer":
		m.finish = &finish{as: journal.Referred, words: "likely " + causeWords(m.place.Causes)}
	}
}

// touched says whether anything stands otherwise than it was found.
func (j *Job) touched() bool {
	return j.world != nil && len(safety.PlanRestore(j.context(), j.world)) > 0
}

func askLeave(j *Job) *Ask {
	f := j.mind.finish
	if f == nil || j.mind.closed != nil || f.as == journal.Proven || f.staysOff() || j.mind.answers["leave"] != nil || !j.touched() {
		return nil
	}
	ask := &Ask{ID: "leave", Kind: Choose, Title: "How is the plant left?", Cautions: j.cautions("leave", "frost"), Choices: j.leaveChoices()}
	if j.plainWords() {
		ask.Body = j.sayWords("Is everything to go back on as you found it, or does it stay off until somebody comes?")
	}
	for _, c := range j.mind.place.Causes {
		if c.Night != "" {
			ask.Body = append(ask.Body, "Overnight: "+c.Night)
		}
	}
	return ask
}

func takeLeave(j *Job, x Answer) (taken, error) {
	c, err := pick(askLeave(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	return taken{bodies: []any{&journal.Answered{Ask: "leave", Choice: c}}}, nil
}

// leaveChoices are the ways the plant can be left, as far as these hands may.
func (j *Job) leaveChoices() []Choice {
	back, off := "put back: leads on, covers on, power back", "isolated: off, locked and labelled"
	if safety.May(j.context(), "covers") != nil {
		back, off = "put back: on again, and set as it was found", "left off, with a note on the switch"
	}
	out := []Choice{{ID: "isolated", Text: off}}
	if j.can(&aim{restore: true}) {
		out = append([]Choice{{ID: "back", Text: back}}, out...)
	}
	return out
}

// can says whether these hands can go the whole way to an aim.
func (j *Job) can(a *aim) bool {
	_, r := safety.Rehearse(j.context(), j.world, j.plan(a))
	return r == nil
}

// staysOff says whether the job ended so that nothing goes back on: in danger,
// or with a supply that is left isolated.
func (f *finish) staysOff() bool {
	return f.referral != nil && (f.referral.Stop || f.referral.Isolated)
}

// finishAim is what is still to be done to the plant before the job closes;
// nil when it is as it is to be left, or cannot be brought there.
func (j *Job) finishAim() *aim {
	f := j.mind.finish
	if j.world == nil || f.referral != nil && f.referral.ID == leftOpenReferral {
		return nil // nobody reaches in
	}
	ways := []*aim{{isolate: true}}
	if f.as == journal.Proven || !f.staysOff() && j.answer("leave") == "back" {
		ways = []*aim{{restore: true}, {isolate: true}}
	}
	for _, a := range ways {
		if j.can(a) {
			return a
		}
	}
	return nil
}

func askRestore(j *Job) *Ask {
	if j.mind.finish == nil || j.mind.closed != nil {
		return nil
	}
	acts, a := j.batch()
	if len(acts) == 0 {
		return nil
	}
	return j.actsAsk(acts, a)
}

// askHandover is the last question: what is left with the people there.
func askHandover(j *Job) *Ask {
	f := j.mind.finish
	if f == nil || j.mind.closed != nil {
		return nil
	}
	ask := &Ask{ID: "handover", Kind: Choose, Title: "Close the job: " + j.endsAs()}
	if j.endsAs() != journal.Proven {
		ask.Cautions = j.cautions("leave")
	}
	if f.words != "" {
		ask.Body = append(ask.Body, upper(f.words)+".")
	}
	if j.endsAs() != journal.Proven {
		ask.Body = append(ask.Body, j.passedOnWords()...)
		ask.Choices = []Choice{{ID: "close", Text: "close it"}}
		return ask
	}
	if j.plainWords() {
		ask.Body = append(ask.Body, j.sayWords("Please turn the heating up, then run the hot water, then turn both down again. Tell me what you hear "+
			"and what the screen says each time, and whether anything switched itself off.")...)
	}
	ask.Body = append(ask.Body,
		"Watch it work: call heat, then hot water, then neither. Pump runs, valve moves, flow 3 to 8 K above return, the demand ends by itself.",
		"No trip for 15 minutes; one start and stop of the compressor seen.",
		"Show the customer the controls and say what is normal: defrost, slow response, the weekly hot clean.")
	for _, c := range j.mind.place.Causes {
		if c.Customer != "" {
			ask.Body = append(ask.Body, "Tell the customer: "+strings.TrimSpace(c.Customer))
		}
	}
	ask.Choices = []Choice{{ID: "close", Text: "all of that is so: proven"}, {ID: "not", Text: "not all of it: left safe, retest due"}}
	return ask
}

// passedOnWords are what to say by phone before the job closes, whom to call
// and how it is left.
func (j *Job) passedOnWords() []string {
	f := j.mind.finish
	r := f.referral
	if r == nil && j.endsAs() == journal.Referred {
		r = j.lib.Set.Referrals[beyondReferral]
	}
	var out []string
	switch {
	case j.mind.hands.Phone && len(j.exposed()) > 0:
		out = j.sayWords(keepAway)
	case j.mind.hands.Phone && r != nil:
		out = j.sayWords(r.Say)
	case j.plainWords():
		out = j.sayWords("Please leave it as it is now. Somebody will come back to it, and until then nothing is to be changed.")
	}
	if f.referral != nil {
		return append(out, j.leaveWords(f.referral)...)
	}
	return out
}

func takeHandover(j *Job, x Answer) (taken, error) {
	c, err := pick(askHandover(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	f := j.mind.finish
	as, to := j.endsAs(), ""
	if r := f.referral; r != nil {
		to = r.To
	} else if as == journal.Referred && f.as != as {
		to = j.lib.Set.Referrals[beyondReferral].To
	}
	if c == "not" {
		as = journal.LeftSafe
	}
	return taken{bodies: []any{&journal.Answered{Ask: "handover", Choice: c}, j.closing(as, f.words, to)}}, nil
}

// endsAs is how the job ends as the plant stands: proven only with everything
// put back, left safe only with nothing live in reach. Who could not bring that
// about passes it on.
func (j *Job) endsAs() string {
	as := j.mind.finish.as
	if as == journal.Proven && j.touched() {
		as = journal.LeftSafe
	}
	if as == journal.LeftSafe && len(j.exposed()) > 0 {
		as = journal.Referred
	}
	return as
}

// closing is the last event. What stands open and is not safe is in its words.
func (j *Job) closing(as, words, to string) *journal.Closed {
	for _, e := range j.exposed() {
		words = strings.TrimPrefix(words+"; left "+e, "; ")
	}
	return &journal.Closed{As: as, Words: words, To: to}
}

func askOver(j *Job) *Ask {
	c := j.mind.closed
	if c == nil {
		return nil
	}
	return &Ask{ID: "over", Kind: Over, Title: "This job is closed: " + c.As, Body: []string{c.Words}}
}
