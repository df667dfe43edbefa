package walk

import (
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// handOver gives the plant to other hands. While something stands open or off
// that is said first, and the present hands may close it up.
func (j *Job) handOver() (taken, error) {
	if len(j.standing()) == 0 {
		return handing("yes"), nil
	}
	j.aside = &stage{"hand over", askHandOver, takeHandOver}
	return taken{}, nil
}

func handing(choice string) taken {
	return taken{bodies: []any{&journal.Answered{Ask: "hand over", Choice: choice}}}
}

func askHandOver(j *Job) *Ask {
	ask := &Ask{ID: "hand over", Kind: Choose, Title: "Before other hands take over: this is how the plant stands", Body: j.standing()}
	if j.plainWords() {
		ask.Body = append(ask.Body, j.sayWords("Before somebody else takes over, please tell me what is switched off just now. Leave it like that.")...)
	}
	add := func(can bool, id, text string) {
		if can {
			ask.Choices = append(ask.Choices, Choice{ID: id, Text: text})
		}
	}
	closes := j.mind.closeUp == "" && j.world.Found == nil
	add(closes && j.can(&aim{restore: true}), "back", "close up first: covers on, power back")
	add(closes && len(j.open()) > 0 && j.can(&aim{isolate: true}), "safe", "close up first: covers on, left off and locked")
	add(true, "yes", "hand over as it is")
	add(true, "stay", "these hands go on")
	return ask
}

func takeHandOver(j *Job, x Answer) (taken, error) {
	c, err := pick(askHandOver(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	if c == "stay" && j.mind.closeUp == "" {
		j.aside = nil
		return taken{}, nil
	}
	return handing(c), nil
}

// askCloseUp has the present hands close up, then asks once more.
func askCloseUp(j *Job) *Ask {
	if j.mind.closeUp == "" || j.mind.finish != nil || j.mind.closed != nil {
		return nil
	}
	if acts, a := j.batch(); len(acts) > 0 {
		return j.actsAsk(acts, a)
	}
	return askHandOver(j)
}

func takeCloseUp(j *Job, x Answer) (taken, error) {
	if acts, _ := j.batch(); len(acts) > 0 {
		return takeActs(j, x)
	}
	return takeHandOver(j, x)
}

// closeUpAim is what the present hands still do before others take over; nil
// when it is done, or cannot be.
func (j *Job) closeUpAim() *aim {
	a := &aim{restore: j.mind.closeUp == "back", isolate: j.mind.closeUp == "safe"}
	if j.world == nil || !j.can(a) {
		return nil
	}
	return a
}

// leftOpenReferral is for hands that took over mains terminals which they may
// not close.
const leftOpenReferral = "left-open"

const keepAway = "Keep everybody away from it. Touch nothing and switch nothing on. Somebody is coming who may close it."

// askLeftOpen stops hands that may not work at what stands open.
func askLeftOpen(j *Job) *Ask {
	if j.world == nil || j.mind.finish != nil || j.mind.closed != nil || len(j.open()) == 0 || safety.May(j.context(), "covers") == nil {
		return nil
	}
	r := j.leftOpen()
	ask := &Ask{ID: "left open", Kind: Choose, Title: "Stop: " + r.Words, Urgent: true, Body: j.sayWords(r.Say), Cautions: j.cautions("danger")}
	ask.Body = append(append(ask.Body, j.standing()...), j.leaveWords(r)...)
	ask.Choices = []Choice{{ID: "refer", Text: "pass the job on"}, {ID: "hands", Text: "other hands take over"}}
	return ask
}

func takeLeftOpen(j *Job, x Answer) (taken, error) {
	c, err := pick(askLeftOpen(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	if c == "hands" {
		return handing("yes"), nil
	}
	return j.passOn(leftOpenReferral, j.leftOpen().Words), nil
}

func (j *Job) leftOpen() *trees.Referral {
	var boxes []string
	for _, e := range j.open() {
		boxes = append(boxes, e.Words)
	}
	return &trees.Referral{ID: leftOpenReferral, Words: "mains terminals stand open in " + strings.Join(boxes, ", "),
		To: "an electrically competent person, now", Leave: "nobody near it; nothing touched, nothing switched on", Say: keepAway, Stop: true}
}

// referral finds a referral of the trees, or one that the walk itself words.
func (j *Job) referral(id string) *trees.Referral {
	if id == leftOpenReferral {
		return j.leftOpen()
	}
	return j.lib.Set.Referrals[id]
}
