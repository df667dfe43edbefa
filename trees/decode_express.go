package trees

import (
	"slices"

	"faultwalk/trees/prove"
	"faultwalk/trees/strict"
)

// report places the errors of an expression in the file it stands in.
func report(t strict.Text, what string, all prove.Errors) {
	for _, e := range all {
		t.ProblemAt(t.At(e.Line, e.Column), "in %s: %s", what, e.Message)
	}
}

// edge checks the edge of a band.
func (r *reader) edge(t strict.Text) {
	if t.Value != "" {
		report(t, "the edge of a band", checkNumber(t.Value, append(slices.Clone(EdgeNames), LevelNames...)))
	}
}

// predicate checks a question about a plant.
func (r *reader) predicate(t strict.Text) {
	if t.Value != "" {
		report(t, "a question about the plant", checkPredicate(t.Value))
	}
}

// expectation checks what a check should give.
func (r *reader) expectation(c *Check) {
	if c.Expect.Value == "" {
		return
	}
	var names []string
	for _, u := range c.Uses {
		names = append(names, u.As)
	}
	report(c.Expect, "an expectation", checkExpectation(c.Expect.Value, names))
}
