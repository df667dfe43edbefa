package safety

import (
	"math"
	"strings"

	"faultwalk/engine/journal"
)

// FoundAbove is the most, in volts, that counts as nothing while proving dead:
// the upper edge of the dead band. Common practice, no source; handbook 3.0.
const FoundAbove = 5.0

// Verdict is what a proving form came to. Line names a voltage found, Missing
// the first line that is not answered, or not answered yes.
type Verdict struct {
	Complete bool
	Missing  string
	Line     string
	Volts    float64
}

// Judge reads the values of a form. Any line above FoundAbove is a voltage
// found, whatever else is missing and whether or not the tester was proved.
func Judge(form []FormField, values []journal.Field) Verdict {
	given := map[string]journal.Field{}
	for _, v := range values {
		if math.Abs(v.Value) > FoundAbove {
			return Verdict{Line: v.Name, Volts: math.Abs(v.Value)}
		}
		given[v.Name] = v
	}
	for _, f := range form {
		v, ok := given[f.Name]
		if !ok || f.Kind == Yes && !yes(v.Typed) || f.Kind == Volts && (math.IsNaN(v.Value) || strings.TrimSpace(v.Typed) == "") {
			return Verdict{Missing: f.Name}
		}
	}
	return Verdict{Complete: len(form) > 0}
}

// yes reads a yes.
func yes(typed string) bool {
	t := strings.ToLower(strings.TrimSpace(typed))
	return t == "yes" || t == "y"
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
