package walk

import (
	"fmt"

	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// putBack keeps the calls of a proof from outlasting it.
const putBack = "What is called at the controller for the proof alone is noted before and put back as noted after the last line."

// formField words one line of a proof.
func formField(f safety.FormField) Field {
	if f.Kind != safety.Volts {
		return Field{Name: f.Name, Text: upper(LineWords(f)) + "? yes or no", YesNo: true, Halts: f.Call == nil && f.Calls == nil}
	}
	return Field{Name: f.Name, Text: LineWords(f), Number: true, Halts: true}
}

// LineWords says a line of a proof of dead in the words of the plant.
func LineWords(f safety.FormField) string {
	if f.Kind != safety.Volts {
		switch {
		case f.Call != nil:
			return f.Call.Words + " called"
		case f.Calls != nil:
			return together(f.Calls) + " called at the controller, or its screen dark"
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

// together lists calls as they are said.
func together(calls []*trees.Call) string {
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

// lineNamed says the line of that name; the name itself where there is none.
func lineNamed(form []safety.FormField, name string) string {
	for _, f := range form {
		if f.Name == name {
			return LineWords(f)
		}
	}
	return name
}
