package walk

import (
	"fmt"
	"slices"
	"strings"

	"faultwalk/engine/journal"
)

// askResult shows the likely cause with what supports it, and asks what to do.
func askResult(j *Job) *Ask {
	m := j.mind
	if len(m.place.Causes) == 0 || m.graph == nil || j.confirming() != nil || m.told("result") != "" || len(m.retests) > 0 {
		return nil
	}
	ask := &Ask{ID: "result", Kind: Choose, Title: "Likely cause (not certain): " + causeWords(m.place.Causes), Cautions: j.cautions("result")}
	ask.Body = j.resultBody()
	rest := []Choice{{ID: "leave", Text: "cannot be repaired now: leave it safe, retest due"}, {ID: "refer", Text: "pass the repair on"}}
	var repairs []Choice
	doubt := j.doubt()
	for _, c := range m.place.Causes {
		if why := j.notRepairable(c); why != "" {
			ask.Body = append(ask.Body, "The repair of “"+c.Words+"” is not done here: "+why)
			continue
		}
		text := "repair it now"
		switch {
		case doubt != nil:
			text = "repair it though a reading speaks against it: " + c.Words
		case len(m.place.Causes) > 1:
			text = "it is this one, repair it now: " + c.Words
		}
		repairs = append(repairs, Choice{ID: "repair " + c.ID, Text: text})
	}
	if doubt == nil {
		ask.Choices = append(repairs, rest...)
		return ask
	}
	ask.Title = "Not settled, one reading speaks for it and one against: " + causeWords(m.place.Causes)
	ask.Choices = slices.Concat(j.measureAgain(doubt), []Choice{rest[1], rest[0]}, repairs)
	return ask
}

// doubt is the second reading that speaks against the cause; nil if none does.
func (j *Job) doubt() *reading {
	for _, c := range j.mind.place.Causes {
		if j.contradicted(c) {
			return j.mind.now[c.Confirm.Check.ID]
		}
	}
	return nil
}

// measureAgain offers to take either of two readings that contradict each other
// again. What may be done once only is not offered.
func (j *Job) measureAgain(second *reading) []Choice {
	var out []Choice
	if !second.check.Check.Once {
		out = append(out, Choice{ID: "second again", Text: "take the second reading again: " + checkName(second.check)})
	}
	if d := j.deciding(); d != nil && d.read != second && !d.read.check.Check.Once {
		out = append(out, Choice{ID: "deciding again", Text: "take the deciding reading again: " + checkName(d.read.check)})
	}
	return out
}

// shownAside is how many of the readings that set causes aside stand on the
// screen, the latest; the sheet has them all.
const shownAside = 3

// setAside lists what the readings speak against. They do so only if one thing
// is wrong: nobody looked at the rest.
func setAside(all []string) []string {
	if len(all) == 0 {
		return nil
	}
	out := []string{"Set aside by what was read, if only one thing is wrong:"}
	for _, r := range all[max(0, len(all)-shownAside):] {
		out = append(out, "  - "+r)
	}
	if more := len(all) - shownAside; more > 0 {
		out = append(out, fmt.Sprintf("  - and by %d readings before these: see the sheet", more))
	}
	return out
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
	out = append(out, setAside(f.RuledOut)...)
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
	switch c {
	case "second again":
		return undone(j.doubt()), nil
	case "deciding again":
		return undone(j.deciding().read), nil
	}
	return taken{bodies: []any{j.mind.tell("result", c)}}, nil
}

// undone takes a reading back with all its probes, so that it is asked for again.
func undone(r *reading) taken {
	var t taken
	for _, n := range slices.Backward(r.events) {
		t.bodies = append(t.bodies, &journal.Retracted{Event: n, Why: "measured again"})
	}
	return t
}
