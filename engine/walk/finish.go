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
		m.finish = &finish{as: journal.Referred, words: b.Values["why"], referral: j.lib.Set.Referrals[b.Values["referral"]]}
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
	if f == nil || j.mind.closed != nil || f.as == journal.Proven || f.stops() || j.mind.answers["leave"] != nil || !j.touched() {
		return nil
	}
	ask := &Ask{ID: "leave", Kind: Choose, Title: "How is the plant left?", Cautions: j.cautions("leave", "frost"),
		Choices: []Choice{
			{ID: "back", Text: "put back: leads on, covers on, power back"},
			{ID: "isolated", Text: "isolated: off, locked and labelled"}}}
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

// stops says whether the job ended in danger: then it is left isolated.
func (f *finish) stops() bool { return f.referral != nil && f.referral.Stop }

// finishAim is what is still to be done to the plant before the job closes;
// nil when it is as it is to be left, or cannot be brought there.
func (j *Job) finishAim() *aim {
	f := j.mind.finish
	if j.world == nil {
		return nil
	}
	ways := []*aim{{isolate: true}}
	if f.as == journal.Proven || !f.stops() && j.answer("leave") == "back" {
		ways = []*aim{{restore: true}, {isolate: true}}
	}
	for _, a := range ways {
		if _, r := safety.Rehearse(j.context(), j.world, j.plan(a)); r == nil {
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
		if f.referral != nil {
			ask.Body = append(ask.Body, stopWords(f.referral)[1:]...)
		}
		ask.Choices = []Choice{{ID: "close", Text: "close it"}}
		return ask
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
		to = j.lib.Set.Referrals["beyond-hands"].To
	}
	if c == "not" {
		as = journal.LeftSafe
	}
	return taken{bodies: []any{j.closing(as, f.words, to)}}, nil
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

// closing is the last event. What stands open with mains on is in its words.
func (j *Job) closing(as, words, to string) *journal.Closed {
	if open := j.exposed(); len(open) > 0 {
		words = strings.TrimPrefix(words+"; left open with power on: "+strings.Join(open, ", "), "; ")
	}
	return &journal.Closed{As: as, Words: words, To: to}
}

// exposed lists what stands open with mains on, or with a voltage found in it.
func (j *Job) exposed() []string {
	var out []string
	if j.world == nil {
		return nil
	}
	for _, e := range j.mind.plant.Enclosures {
		found := j.world.Found != nil && j.world.Found.Enclosure == e.ID
		if e.Mains && j.world.Enclosures[e.ID].Open != safety.AsFound && (found || !j.world.Isolated(e.ID)) {
			out = append(out, e.Words)
		}
	}
	return out
}

func askOver(j *Job) *Ask {
	c := j.mind.closed
	if c == nil {
		return nil
	}
	return &Ask{ID: "over", Kind: Over, Title: "This job is closed: " + c.As, Body: []string{c.Words}}
}
