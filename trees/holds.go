package trees

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"faultwalk/trees/formula"
)

// Holds is what a variable of the simulation may hold. Its first value says
// which: 0 is a number, false is true or false, tight is a word.
type Holds int

// What variables hold.
const (
	HoldsNumber Holds = iota
	HoldsTruth
	HoldsWord
)

func (h Holds) String() string { return [...]string{"a number", "true or false", "a word"}[h] }

// Type is how formulas see it: what is true or false counts as a number.
func (h Holds) Type() formula.Type {
	if h == HoldsWord {
		return formula.Wordy
	}
	return formula.Numeric
}

// Fits says what is wrong with a literal for a variable that holds this; nil
// for nothing.
func (h Holds) Fits(variable, literal string) error {
	if HeldBy(literal) == h {
		return nil
	}
	return fmt.Errorf("%q is set to %q; expected %s", variable, clip(literal), h)
}

// HeldBy says what a variable holds that a literal is the first value of.
func HeldBy(literal string) Holds {
	switch _, word := Literal(literal); {
	case word:
		return HoldsWord
	case literal == "true" || literal == "false":
		return HoldsTruth
	}
	return HoldsNumber
}

// Literal reads a number, true or false; anything else is a word.
func Literal(text string) (number float64, word bool) {
	switch text {
	case "true":
		return 1, false
	case "false":
		return 0, false
	}
	number, err := strconv.ParseFloat(text, 64)
	return number, err != nil
}

// Holds is what a variable of a model holds.
func (v ModelVariable) Holds() Holds { return HeldBy(v.First.Value) }

// Type says whether a variable is a number, true and false among them, or a word.
func (v ModelVariable) Type() formula.Type { return v.Holds().Type() }

// implicit are the variables that every enclosure, device, setting and call has.
var implicit = map[string]map[string]Holds{
	"box":     {"wet": HoldsTruth, "burnt": HoldsWord},
	"device":  {"on": HoldsTruth, "tripped": HoldsWord},
	"setting": {"": HoldsWord},
	"call":    {"": HoldsTruth},
}

// Implicit gives what an implicit variable holds: wet and burnt of a box, on and
// tripped of a device; a setting and a call have one without a name.
func Implicit(thing, field string) (h Holds, known bool) {
	h, known = implicit[thing][field]
	return h, known
}

func implicitType(thing, field string) (formula.Type, error) {
	h, known := implicit[thing][field]
	if !known {
		return h.Type(), formula.AtField(formula.Unknown("a variable of a "+thing, field, slices.Sorted(maps.Keys(implicit[thing]))))
	}
	return h.Type(), nil
}
