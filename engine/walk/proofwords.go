package walk

import (
	"fmt"

	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// formField words one line of a proof.
func formField(f safety.FormField) Field {
	switch {
	case f.Dark:
		return Field{Name: f.Name, Text: "Is the controller's screen dark? yes or no", YesNo: true, Halts: true}
	case f.Kind != safety.Volts:
		return Field{Name: f.Name, Text: upper(LineWords(f)) + "? yes or no", YesNo: true, Halts: f.Call == nil && f.Calls == nil}
	}
	return Field{Name: f.Name, Text: LineWords(f), Number: true, Halts: true}
}

// controllerWords says what is done at the controller for a line: its screen
// looked at, or its calls made, each with what has to be so before.
func (j *Job) controllerWords(f safety.FormField) []string {
	if f.Dark {
		return []string{"Press a key at the controller first, for a sleeping screen looks dark. Call nothing there. " +
			"A lit screen says that the board's supply, which comes here, is on."}
	}
	if f.Calls == nil {
		return nil
	}
	out := []string{"The board may keep its power here, so what it switches is called for the proof, unless the screen is dark:"}
	for _, c := range f.Calls {
		out = append(out, "  "+upper(callWords(c, j.mind.hands.Phone, true)))
	}
	return append(out, fmt.Sprintf("Then wait %s before the first pair. Withdraw them all again after the last line.", minutes(settling(f))))
}

// settling is how many minutes what is called for a line takes to act.
func settling(f safety.FormField) float64 {
	longest := 0.0
	for _, c := range f.Calls {
		longest = max(longest, c.Settle)
	}
	return longest
}

// LineWords says a line of a proof of dead in the words of the plant.
func LineWords(f safety.FormField) string {
	if f.Kind != safety.Volts {
		switch {
		case f.Dark:
			return "the controller's screen dark"
		case f.Call != nil:
			return f.Call.Words + " called"
		case f.Calls != nil:
			return listed(f.Calls) + " called at the controller, or its screen dark"
		}
		return f.Name
	}
	text := f.Name
	if f.From != nil && f.To != nil {
		text = fmt.Sprintf("%s to %s", f.From.Name(), f.To.Name())
	}
	if measurements.Mode(f.Mode).Loads() {
		text += ", load button in"
	}
	return text
}

// listed names calls as they are said.
func listed(calls []*trees.Call) string {
	out := calls[0].Words
	for i, c := range calls[1:] {
		if i+2 == len(calls) {
			out += " and " + c.Words
		} else {
			out += ", " + c.Words
		}
	}
	return out
}

// foundWords says what a proof found.
func foundWords(form []safety.FormField, v safety.Verdict) string {
	for _, f := range form {
		if f.Name == v.Line && f.Dark {
			return screenLit
		}
	}
	return lineNamed(form, v.Line) + " reads " + measurements.ACVolts.Format(v.Volts)
}

// screenLit is what was found where no voltage was read.
const screenLit = "the controller's screen is lit"

// lineNamed says the line of that name; the name itself where there is none.
func lineNamed(form []safety.FormField, name string) string {
	for _, f := range form {
		if f.Name == name {
			return LineWords(f)
		}
	}
	return name
}
