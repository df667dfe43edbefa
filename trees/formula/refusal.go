package formula

import (
	"errors"
	"fmt"
)

// refusal is an error of a resolver with its place in a call.
type refusal struct {
	error
	word int // index of the name in quotes, or -1 for the field
}

// AtWord places an error of a resolver at one of the quoted names of a call, counted from 0.
func AtWord(word int, err error) error { return refusal{err, word} }

// AtField places an error of a resolver at what follows the dot.
func AtField(err error) error { return refusal{err, -1} }

// Unknown is the error for a name that is not there, with the name that was
// probably meant. What says what it should be: "a part of the plant".
func Unknown(what, name string, known []string) error {
	return fmt.Errorf("%q is not %s%s", name, what, suggest(name, known))
}

// placed gives where an error of a resolver belongs.
func (n *Node) placed(err error) Error {
	var r refusal
	switch {
	case !errors.As(err, &r):
	case r.word >= 0 && r.word < len(n.WordsAt):
		return Error{n.WordsAt[r.word], r.Error()}
	case r.word < 0 && n.Field != "":
		return Error{n.FieldAt, r.Error()}
	}
	return Error{n.At, err.Error()}
}
