package walk

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/measurements"
)

// proveAsk is the whole proof of one enclosure as one form.
func (j *Job) proveAsk(act journal.Act) *Ask {
	e := j.mind.plant.Enclosure(act.On)
	a := &Ask{ID: "prove", Kind: Fill, Title: "Prove dead: " + enclosureName(e), Cautions: j.cautionsFor(act), Minutes: ActMinutes(act),
		Body: []string{"Two-pole tester, volts. Load button out unless the line says in. Every line is read, with the demands made. " +
			"Measure, step back, then enter. Several numbers on one line fill the lines that follow; all 0 fills them with nothing found."}}
	form := safety.Form(j.mind.plant, act.On)
	for i, f := range form {
		a.Body = append(a.Body, j.controllerWords(f)...)
		a.Minutes += settling(f)
		field := formField(f)
		field.Text = fmt.Sprintf("%d/%d %s", i+1, len(form), field.Text)
		a.Fields = append(a.Fields, field)
	}
	return a
}

// takeProof reads the form. A voltage halts the work; a form that is not whole
// is refused and nothing recorded.
func (j *Job) takeProof(act journal.Act, a Answer) (taken, error) {
	form := safety.Form(j.mind.plant, act.On)
	values, err := readForm(form, a.Fields)
	if err != nil {
		return taken{}, err
	}
	if testerFailed(form, values) {
		j.aside = testerStage
		return taken{}, nil
	}
	return j.proof(act, form, values)
}

func (j *Job) proof(act journal.Act, form []safety.FormField, values []journal.Field) (taken, error) {
	b := &journal.Acted{Act: act, Outcome: journal.Done, Form: values, Cautions: ids(j.cautionsFor(act))}
	v := safety.Judge(form, values)
	switch {
	case v.Line != "":
		b.Outcome = journal.Found
		return taken{bodies: []any{b}, say: []string{upper(foundWords(form, v)) + ": this is not dead. Hands out."}}, nil
	case !v.Complete:
		return taken{}, &Refused{"the form is not complete: " + lineNamed(form, v.Missing)}
	}
	if r := safety.Guard(j.context(), j.world, safety.OfForm(act.On, values)); r != nil {
		return taken{}, &Refused{r.Why}
	}
	return taken{bodies: []any{b}, say: []string{"Proved dead: " + j.mind.plant.Words(act.On) + "."}}, nil
}

// readForm pairs what was typed with the lines of the form. A voltage ends it:
// nobody reads on in a box that is not dead.
func readForm(form []safety.FormField, typed []string) ([]journal.Field, error) {
	var out []journal.Field
	for i, f := range form[:min(len(typed), len(form))] {
		v, err := formValue(f, typed[i])
		if err != nil {
			return nil, err
		}
		out = append(out, journal.Field{Name: f.Name, Typed: strings.TrimSpace(typed[i]), Value: v})
	}
	ended := safety.Judge(form, out).Line != "" || testerFailed(form, out)
	if len(typed) > len(form) || len(typed) < len(form) && !ended {
		return nil, &Refused{fmt.Sprintf("%d lines were filled in; the form has %d", len(typed), len(form))}
	}
	return out, nil
}

// formValue reads one line: volts, or 1 for yes and 0 for no. OL on a tester
// means more than it can show.
func formValue(f safety.FormField, typed string) (float64, error) {
	if f.Kind != safety.Volts {
		yes, ok := yesNo(typed)
		if !ok {
			return 0, &Refused{fmt.Sprintf("%s: expected yes or no", LineWords(f))}
		}
		if yes == "yes" {
			return 1, nil
		}
		return 0, nil
	}
	v, err := provedVolts(typed)
	if err != nil {
		return 0, &Refused{LineWords(f) + ": " + err.Error()}
	}
	return v, nil
}

// provedVolts reads the volts of a line, the most they may be.
func provedVolts(typed string) (float64, error) {
	r, err := measurements.Parse(measurements.ACVolts, typed)
	if err != nil {
		return 0, err
	}
	if math.IsInf(r.Value.Hi, 1) {
		return measurements.ACVolts.Domain().Hi, nil
	}
	return max(math.Abs(r.Value.Lo), math.Abs(r.Value.Hi)), nil
}

// Numbers splits a line that holds several plain numbers, so that one line can
// fill several lines of a form; anything else stays one.
func Numbers(line string) []string {
	words := strings.Fields(line)
	for _, w := range words {
		if _, err := strconv.ParseFloat(strings.ReplaceAll(w, ",", "."), 64); err != nil {
			return []string{line}
		}
	}
	if len(words) < 2 {
		return []string{line}
	}
	return words
}
