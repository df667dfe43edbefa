package trees

import (
	"strings"

	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// formulaOf checks how a formula is written and gives it, or nil.
func formulaOf(t strict.Text, what string) *formula.Formula {
	if t.Value == "" {
		return nil
	}
	f, errs := formula.Parse(t.Value)
	complain(t, what, errs)
	return f
}

// complain records what is wrong with a formula in its file.
func complain(t strict.Text, what string, errs formula.Errors) {
	for _, e := range errs {
		t.ProblemAt(t.AtOffset(e.At), "in %s: %s", what, e.Message)
	}
}

// FormulaName gives the name by which formulas call a value: a part's
// winding-ohms is winding_ohms there.
func FormulaName(id string) string { return strings.ReplaceAll(id, "-", "_") }

// formulaName reads a required name that stands bare in formulas. A hyphen in
// it is as good as _.
func (s *section) formulaName(key string) strict.Text {
	t := s.Text(key)
	if t.Value == "" {
		return t
	}
	if t.Value = FormulaName(t.Value); !formula.IsName(t.Value) {
		t.Problem("found %q for %q; expected small letters, digits and _, because it stands in formulas", clip(t.Value), key)
		return strict.Text{}
	}
	if contains(reservedNames, t.Value) {
		t.Problem("%q has a meaning of its own in formulas; give it another name", t.Value)
		return strict.Text{}
	}
	return t
}

// reservedNames are bare names that no model may give: unsteady and followed
// mean the same in all of them, the rest are operators.
var reservedNames = []string{"unsteady", "followed", "true", "false", "nil", "and", "or", "not", "in", "let", "if", "else", "matches", "contains"}
