package trees

import "faultwalk/trees/strict"

// Case is a callout as its author tells it: what the checks gave, the way
// through the tree that follows from that, and where it must end.
type Case struct {
	ID, Is, Source string
	Pos            strict.Pos
	Symptom, Plant strict.Text
	Guards         string // the misleading reading it stands guard against, in words; empty: none
	Gives          []Given
	Path           []strict.Text // steps in order, as in [Bound.Path] without the symptom
	Ends           CaseEnd
}

// Given is what one check gives: the answer of a look, or a reading as typed for
// each probe that is taken.
type Given struct {
	Check strict.Text // the bound check's id
	Reads []strict.Text
}

// CaseEnd is where a case must end: exactly one field is set. Causes are the
// whole group that the tree names.
type CaseEnd struct {
	Causes      []strict.Text
	Refer, Pass strict.Text
}
