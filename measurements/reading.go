package measurements

import (
	"fmt"
	"math"
	"strings"
)

// Reading is one thing a meter showed, as typed. Value is before the meter's
// accuracy: see [ModeSpec.Widen].
type Reading struct {
	Quantity Quantity `json:"quantity"`
	Value    Interval `json:"value"`            // SI or °C; a point for an exact reading
	Moving   bool     `json:"moving,omitempty"` // it wandered between the ends while watched
	Open     bool     `json:"open,omitempty"`   // OL: above the meter's range, whatever that is
	Typed    string   `json:"typed"`            // what the person typed, unchanged
}

// NotAReading refuses typed text. Message is one line that says what was found
// and what was expected; nothing may be recorded.
type NotAReading struct {
	Quantity Quantity
	Typed    string
	Message  string

	// Beyond is set when the text was understood and no such meter can show it,
	// so that a caller can still ask [MainsSlip] what was meant.
	Beyond *Reading
}

// Error gives the one line.
func (e *NotAReading) Error() string { return e.Message }

// String writes the reading in the trade's writing: "231.4 V", ">20 MΩ", "OL",
// "190-240 V moving". [Parse] of that text gives the same value again.
func (r Reading) String() string {
	text := r.text()
	if r.Moving {
		text += " moving"
	}
	return text
}

func (r Reading) text() string {
	domain := r.Quantity.Domain()
	switch lo, hi := r.Quantity.Format(r.Value.Lo), r.Quantity.Format(r.Value.Hi); {
	case r.Open || math.IsInf(r.Value.Lo, 1):
		return "OL"
	case r.Value.IsPoint():
		return lo
	case r.Value.Hi == domain.Hi:
		return ">" + lo
	case r.Value.Lo == domain.Lo:
		return "<" + hi
	default:
		return between(lo, hi)
	}
}

// between joins two formatted values; a unit both share is written once.
func between(lo, hi string) string {
	sep := "-"
	if strings.HasPrefix(lo, "-") {
		sep = " to " // "-2--1" is hard to read
	}
	loNumber, loUnit, _ := strings.Cut(lo, " ")
	if _, hiUnit, _ := strings.Cut(hi, " "); hiUnit == loUnit {
		return loNumber + sep + hi
	}
	return lo + sep + hi
}

// refuse builds the one line: what was found, then what was expected.
func refuse(q Quantity, typed, found string) *NotAReading {
	line := fmt.Sprintf("%s; expected %s", found, q.Wanted())
	return &NotAReading{Quantity: q, Typed: typed, Message: line}
}

// quoted shows typed text on one line, cut to a length that fits a message.
func quoted(typed string) string {
	const most = 24
	if runes := []rune(typed); len(runes) > most {
		typed = string(runes[:most]) + "…"
	}
	return fmt.Sprintf("%q", typed)
}
