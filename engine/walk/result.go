package walk

import (
	"strings"

	"faultwalk/engine/safety"
)

// askResult shows the likely cause with what supports it, and asks what to do.
func askResult(j *Job) *Ask {
	m := j.mind
	if len(m.place.Causes) == 0 || m.graph == nil || j.confirming() != nil || m.told("result") != "" || len(m.retests) > 0 {
		return nil
	}
	ask := &Ask{ID: "result", Kind: Choose, Title: "Likely cause (not certain): " + causeWords(m.place.Causes), Cautions: j.cautions("result")}
	ask.Body = j.resultBody()
	for _, c := range m.place.Causes {
		if r := safety.Available(j.context(), j.world, safety.OfNeed(c.Remedy.Need)); r != nil {
			ask.Body = append(ask.Body, "The repair of “"+c.Words+"” is not for these hands: "+r.Why)
			continue
		}
		text := "repair it now"
		if len(m.place.Causes) > 1 {
			text = "it is this one, repair it now: " + c.Words
		}
		ask.Choices = append(ask.Choices, Choice{ID: "repair " + c.ID, Text: text})
	}
	ask.Choices = append(ask.Choices,
		Choice{ID: "leave", Text: "cannot be repaired now: leave it safe, retest due"},
		Choice{ID: "refer", Text: "pass the repair on"})
	return ask
}

// resultBody is the finding as it also stands on the sheet.
func (j *Job) resultBody() []string {
	f := j.finding()
	var out []string
	line := func(label string, words ...string) {
		if w := strings.Join(words, "; "); w != "" {
			out = append(out, label+w)
		}
	}
	line("", f.Deciding)
	line("Second reading: ", f.Second)
	line("Against it: ", f.Against)
	if len(f.RuledOut) > 0 {
		out = append(out, "Ruled out:")
	}
	for _, r := range f.RuledOut {
		out = append(out, "  - "+r)
	}
	line("Also possible: ", f.Also...)
	line("Look behind it: ", f.Behind)
	line("Tell the customer: ", f.Customer)
	line("Overnight: ", f.Night)
	line("Figures: ", f.Source)
	return out
}

func takeResult(j *Job, x Answer) (taken, error) {
	c, err := pick(askResult(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	return taken{bodies: []any{j.mind.tell("result", c)}}, nil
}
