package safety

import (
	"math"
	"strings"

	"faultwalk/engine/journal"
)

// FoundAbove is the most, in volts, that counts as nothing while proving dead:
// the upper edge of the dead band. Common practice, no source; handbook 3.0.
const FoundAbove = 5.0

// Verdict is what a proving form came to. Line names a voltage found, or the
// screen that is lit: then Volts is none. Missing is the first line that is not
// answered, or not answered yes.
type Verdict struct {
	Complete bool
	Missing  string
	Line     string
	Volts    float64
}

// Judge reads the values of a form. Any line above FoundAbove is a voltage
// found, whatever else is missing and whether or not the tester was proved, and
// so is a screen that is lit.
func Judge(form []FormField, values []journal.Field) Verdict {
	for _, v := range values {
		if math.Abs(v.Value) > FoundAbove {
			return Verdict{Line: v.Name, Volts: math.Abs(v.Value)}
		}
	}
	for _, f := range form {
		if f.Dark && lit(f, values) {
			return Verdict{Line: f.Name}
		}
	}
	whole := inOrder(form, values)
	for i, f := range form {
		v, ok := journal.Field{}, whole
		if whole {
			v = values[i]
		} else {
			v, ok = given(values, f.Name)
		}
		if !ok || f.Kind == Yes && !yes(v.Typed) || f.Kind == Volts && (math.IsNaN(v.Value) || strings.TrimSpace(v.Typed) == "") {
			return Verdict{Missing: f.Name}
		}
	}
	return Verdict{Complete: len(form) > 0}
}

// inOrder says whether the values are those of the form, line by line.
func inOrder(form []FormField, values []journal.Field) bool {
	if len(form) != len(values) {
		return false
	}
	for i := range form {
		if form[i].Name != values[i].Name {
			return false
		}
	}
	return true
}

// given finds the value of a line; of several the last counts.
func given(values []journal.Field, line string) (journal.Field, bool) {
	for i := len(values) - 1; i >= 0; i-- {
		if values[i].Name == line {
			return values[i], true
		}
	}
	return journal.Field{}, false
}

// yes reads a yes.
func yes(typed string) bool {
	t := strings.ToLower(strings.TrimSpace(typed))
	return t == "yes" || t == "y"
}

// lit says whether the screen is not dark.
func lit(f FormField, values []journal.Field) bool {
	v, ok := given(values, f.Name)
	return ok && no(v.Typed)
}

// no reads a no.
func no(typed string) bool {
	t := strings.ToLower(strings.TrimSpace(typed))
	return t == "no" || t == "n"
}

// Clean gives the values of a form with nothing found, as a plan assumes.
func Clean(form []FormField) []journal.Field {
	var out []journal.Field
	for _, f := range form {
		typed := "0"
		if f.Kind == Yes {
			typed = "yes"
		}
		out = append(out, journal.Field{Name: f.Name, Typed: typed})
	}
	return out
}
