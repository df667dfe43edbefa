package walk

import (
	"fmt"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// confirming is the cause whose second reading stands next; nil if there is
// none, it was read, or the person goes without.
func (j *Job) confirming() *trees.BoundCause {
	m := j.mind
	if len(m.place.Causes) != 1 || m.told("result") != "" || len(m.retests) > 0 {
		return nil
	}
	c := m.place.Causes[0]
	if c.Confirm == nil || c.Confirm.Check == nil || m.told("confirm") != "take" {
		return nil
	}
	if r := m.now[c.Confirm.Check.ID]; r != nil && len(r.values) == len(c.Confirm.Check.Probes) {
		if _, decided := j.holds(r, c.Confirm.If.Value); decided || r.tried > 0 {
			return nil
		}
	}
	return c
}

// askConfirm offers a second reading that the nearest rival would contradict.
func askConfirm(j *Job) *Ask {
	m := j.mind
	if len(m.place.Causes) != 1 || m.told("confirm") != "" || m.told("result") != "" || len(m.retests) > 0 {
		return nil
	}
	c := m.place.Causes[0]
	if c.Confirm == nil || c.Confirm.Check == nil || m.now[c.Confirm.Check.ID] != nil {
		return nil
	}
	if j.tooFar(&aim{check: c.Confirm.Check, need: c.Confirm.Check.Need}) != nil {
		return nil
	}
	ask := &Ask{ID: "confirm", Kind: Choose, Title: "Likely: " + c.Words, Minutes: c.Confirm.Check.Check.Minutes}
	ask.Body = []string{j.decidingWords()}
	if c.Confirm.Rival != "" {
		ask.Body = append(ask.Body, "Could also be: "+c.Confirm.Rival+". One more reading would tell them apart: "+confirmName(c.Confirm.Check))
	}
	ask.Choices = []Choice{{ID: "take", Text: "take the second reading"}, {ID: "without", Text: "go without it"}}
	return ask
}

func confirmName(c *trees.BoundCheck) string {
	if c.Look != "" {
		return c.Look
	}
	if len(c.Probes) > 0 && c.Probes[0].From != nil {
		return string(c.Quantity) + " at " + c.Probes[0].From.Name()
	}
	return c.ID
}

func takeConfirm(j *Job, x Answer) (taken, error) {
	c, err := pick(askConfirm(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	return taken{bodies: []any{j.mind.tell("confirm", c)}}, nil
}

// confirmWords says what the second reading makes of a cause.
func (j *Job) confirmWords(c *trees.BoundCause, r *reading) string {
	holds, decided := j.holds(r, c.Confirm.If.Value)
	switch {
	case !decided:
		return "not decided by this alone"
	case holds && c.Confirm.Rival != "":
		return "this fits; “" + c.Confirm.Rival + "” would have read otherwise"
	case holds:
		return "this fits"
	}
	return "this does not fit: “" + c.Words + "” would have read otherwise"
}

// contradicted says whether the second reading speaks against the cause.
func (j *Job) contradicted(c *trees.BoundCause) bool {
	if c.Confirm == nil || c.Confirm.Check == nil {
		return false
	}
	r := j.mind.now[c.Confirm.Check.ID]
	if r == nil {
		return false
	}
	holds, decided := j.holds(r, c.Confirm.If.Value)
	return decided && !holds
}

// deciding is the last reading that led to the place; nil at the start.
func (j *Job) deciding() *passed {
	for i := len(j.mind.trail) - 1; i >= 0; i-- {
		if j.mind.trail[i].read != nil {
			return &j.mind.trail[i]
		}
	}
	return nil
}

func (j *Job) decidingWords() string {
	d := j.deciding()
	if d == nil {
		return ""
	}
	w := "Because " + checkName(d.read.check) + " gave: " + j.readWords(d.read)
	if d.branch >= 0 {
		w += ": " + d.step.Branches[d.branch].Meaning
	}
	return w + "."
}

// checkName says a check in words: its question, or where it was read.
func checkName(c *trees.BoundCheck) string {
	if c.Look != "" {
		return "“" + c.Look + "”"
	}
	p := c.Probes[0]
	if p.To != nil && len(c.Probes) == 1 {
		return p.From.Name() + " to " + p.To.Name()
	}
	return p.From.Name()
}

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

func causeWords(cs []*trees.BoundCause) string {
	var out []string
	for _, c := range cs {
		out = append(out, c.Words)
	}
	return strings.Join(out, ", or ")
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

// Finding is a conclusion with what supports it.
type Finding struct {
	Causes   []string
	Deciding string
	Second   string
	Against  string
	RuledOut []string
	Also     []string
	Behind   string
	Customer string
	Night    string
	Source   string
}

// finding puts the conclusion at the present place into words.
func (j *Job) finding() Finding {
	m := j.mind
	f := Finding{Deciding: j.decidingWords()}
	in := map[string]bool{}
	for _, c := range m.place.Causes {
		in[c.ID] = true
		f.Causes = append(f.Causes, c.ID)
		if c.Confirm != nil && c.Confirm.Check != nil && m.now[c.Confirm.Check.ID] != nil {
			r := m.now[c.Confirm.Check.ID]
			w := checkName(r.check) + ": " + j.readWords(r) + "; " + j.confirmWords(c, r)
			if j.contradicted(c) {
				f.Against = w
			} else {
				f.Second = w
			}
		}
	}
	c := m.place.Causes[0]
	f.Behind, f.Customer, f.Night, f.Source = c.Behind, c.Customer, c.Night, c.Cause.Source
	f.Also = j.also(in)
	f.RuledOut = j.ruledOut(in)
	return f
}

// also lists the rivals and what skipped steps left open.
func (j *Job) also(in map[string]bool) []string {
	var out []string
	seen := map[string]bool{}
	add := func(c *trees.BoundCause) {
		if !in[c.ID] && !seen[c.ID] {
			seen[c.ID] = true
			out = append(out, c.Words)
		}
	}
	for _, c := range j.mind.place.Causes {
		for _, r := range c.Rivals {
			add(r)
		}
	}
	for _, p := range j.mind.trail {
		if p.branch >= 0 || p.read != nil {
			continue
		}
		for _, br := range p.step.Branches {
			for _, c := range j.mind.graph.Causes(br.To) {
				add(c)
			}
		}
	}
	return out
}

// ruledOut lists the causes that each reading took out of reach, with the reading.
func (j *Job) ruledOut(in map[string]bool) []string {
	m := j.mind
	left := map[string]bool{}
	for _, c := range m.place.Causes {
		for _, r := range c.Rivals {
			left[r.ID] = true
		}
	}
	var out []string
	seen := map[string]bool{}
	for _, p := range m.trail {
		if p.read == nil || p.branch < 0 {
			continue
		}
		after := map[string]bool{}
		for _, c := range m.graph.Causes(p.to) {
			after[c.ID] = true
		}
		var gone []string
		for _, br := range p.step.Branches {
			for _, c := range m.graph.Causes(br.To) {
				if !after[c.ID] && !in[c.ID] && !left[c.ID] && !seen[c.ID] {
					seen[c.ID] = true
					gone = append(gone, c.Words)
				}
			}
		}
		if len(gone) > 0 {
			out = append(out, few(gone, 3)+": by "+j.readWords(p.read)+" at "+checkName(p.read.check))
		}
	}
	return out
}

// few keeps a long list readable; the rest is counted.
func few(words []string, most int) string {
	if len(words) <= most {
		return strings.Join(words, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(words[:most], ", "), len(words)-most)
}

func takeResult(j *Job, x Answer) (taken, error) {
	c, err := pick(askResult(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	return taken{bodies: []any{j.mind.tell("result", c)}}, nil
}

// repairing is the cause being put right now; nil if none.
func (j *Job) repairing() *trees.BoundCause {
	id, ok := strings.CutPrefix(j.mind.told("result"), "repair ")
	if !ok {
		return nil
	}
	for _, c := range j.mind.place.Causes {
		if c.ID == id {
			return c
		}
	}
	return nil
}

// askRepair gives the remedy once the plant is in the state it needs.
func askRepair(j *Job) *Ask {
	c := j.repairing()
	if c == nil || j.mind.finish != nil {
		return nil
	}
	if acts, _ := j.batch(); len(acts) > 0 {
		return nil
	}
	ask := &Ask{ID: "repair", Kind: Choose, Title: "Repair: " + c.Words, Body: []string{strings.TrimSpace(c.Remedy.Do)}}
	if j.plainWords() && c.Remedy.Say != "" {
		ask.Body = []string{"Say: “" + strings.TrimSpace(c.Remedy.Say) + "”"}
	}
	if len(c.Remedy.Parts) > 0 {
		ask.Body = append(ask.Body, "Parts: "+strings.Join(c.Remedy.Parts, "; "))
	}
	if c.Behind != "" {
		ask.Body = append(ask.Body, "Look behind it: "+c.Behind)
	}
	if r := safety.Guard(j.context(), j.world, safety.OfNeed(c.Remedy.Need)); r != nil {
		ask.Body = []string{"Not now: " + r.Why}
		ask.Choices = []Choice{{ID: "leave", Text: "leave it safe, retest due"}}
		return ask
	}
	ask.Choices = []Choice{{ID: "done", Text: "repaired"}, {ID: "leave", Text: "could not be repaired: leave it safe"}}
	return ask
}

func takeRepair(j *Job, x Answer) (taken, error) {
	c, err := pick(askRepair(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	cause := j.repairing()
	if c == "leave" {
		return taken{bodies: []any{j.mind.tell("result", "leave")}}, nil
	}
	return taken{bodies: []any{&journal.Repaired{Cause: cause.ID, Did: strings.TrimSpace(cause.Remedy.Do), Parts: cause.Remedy.Parts}},
		say: []string{"Now it is proved: the deciding reading again, then what the sign needs."}}, nil
}
