package measurements

import (
	"fmt"
	"math"
	"regexp"
	"strings"
)

// longest is the most bytes a typed reading may have.
const longest = 80

var (
	openWords = regexp.MustCompile(`(?i)^(?:o\.?l\.?|0l|open(?: circuit)?|o/c|overload|over ?range|inf(?:inity)?|∞)\s*(.*)$`)
	compared  = regexp.MustCompile(`^(>=|<=|>|<|≥|≤)\s*(.+)$`)
	spanned   = regexp.MustCompile(`^([+-]?[^-].*?)\s*(?:\.\.\.?|…|\bto\b|-)\s*([+-]?[0-9.,].*)$`)
	movingAt  = regexp.MustCompile(`(?i)^moving\b\s*(.*)$|^(.*?)\s*\bmoving$`)
)

// Parse reads what a person types from a meter's display:
//
//	231   231.4V   0,52   2k2   4.7 kΩ   0R5   52m   12 mV   240 v ac   20 degC
//	OL   open   >20M   <1   190-240   190..240 moving   moving 190-240
//
// A bare number is in the unit the meter shows: V, Ω, A, °C, but MΩ for insulation
// and mA for leakage. OL is +Inf until [ModeSpec.Widen] knows the meter's range.
// Anything else gives a [*NotAReading] whose one line says what was expected.
func Parse(q Quantity, typed string) (Reading, error) {
	if !q.Known() {
		return Reading{}, &NotAReading{Quantity: q, Typed: typed, Message: fmt.Sprintf("%q is not a quantity a meter reads; expected one of %v", string(q), Quantities())}
	}
	p := parser{q: q, typed: typed}
	text := tidy(typed)
	switch {
	case text == "":
		return Reading{}, p.refuse("nothing was typed")
	case len(text) > longest:
		return Reading{}, p.refuse(quoted(typed) + " is too long for a reading")
	}
	r, err := p.reading(text)
	if err != nil {
		return Reading{}, err
	}
	return r, nil
}

// parser carries what every refusal must name.
type parser struct {
	q     Quantity
	typed string
}

func (p parser) refuse(found string) *NotAReading { return refuse(p.q, p.typed, found) }

func (p parser) nonsense() *NotAReading { return p.refuse(quoted(p.typed) + " is not a reading") }

// reading takes the forms in the order in which they cannot be mistaken.
func (p parser) reading(text string) (Reading, error) {
	r := Reading{Quantity: p.q, Typed: p.typed}
	if m := movingAt.FindStringSubmatch(text); m != nil {
		r.Moving, text = true, strings.TrimSpace(m[1]+m[2])
	}
	var err error
	switch {
	case openWords.MatchString(text):
		r.Open = true
		r.Value, err = p.openCircuit(openWords.FindStringSubmatch(text)[1])
	case compared.MatchString(text):
		m := compared.FindStringSubmatch(text)
		r.Value, err = p.compare(m[1], m[2])
	case spanned.MatchString(text):
		m := spanned.FindStringSubmatch(text)
		r.Value, err = p.span(m[1], m[2])
	default:
		r.Value, err = p.single(text)
	}
	if err == nil && r.Moving && r.Value.IsPoint() {
		err = p.refuse("moving between which values? type both ends")
	}
	return r, err
}

// openCircuit accepts OL, with or without the unit some displays leave standing.
func (p parser) openCircuit(unit string) (Interval, error) {
	if t, _ := p.q.traits(); !t.open {
		return Interval{}, p.refuse(fmt.Sprintf("%s is no value of %s: change the range or check the leads", quoted(p.typed), p.q))
	}
	if _, err := p.exponent(unit); err != nil {
		return Interval{}, err
	}
	return Point(math.Inf(1)), nil
}

// compare reads ">20M" and "<1" as everything beyond, to the end of the domain.
func (p parser) compare(sign, text string) (Interval, error) {
	v, err := p.value(text)
	if err != nil {
		return Interval{}, err
	}
	domain := p.q.Domain()
	if sign == "<" || sign == "<=" || sign == "≤" {
		return Interval{domain.Lo, v}, nil
	}
	if p.q.Unit() == "Ω" && v < 1 && strings.HasSuffix(text, "m") {
		return Interval{}, p.refuse(quoted(p.typed) + " says milliohms: type M for megohms")
	}
	return Interval{v, domain.Hi}, nil
}

// span reads "190-240", either end first. A unit on the second value alone
// belongs to both; on the first alone it could mean anything.
func (p parser) span(from, to string) (Interval, error) {
	fromNumber, fromUnit := split(from)
	_, toUnit := split(to)
	switch {
	case fromUnit == "" && toUnit != "":
		from = fromNumber + " " + toUnit
	case fromUnit != "" && toUnit == "":
		return Interval{}, p.refuse(quoted(p.typed) + " has a unit on its first value only: put it on the second or on both")
	}
	a, err := p.value(from)
	if err != nil {
		return Interval{}, err
	}
	b, err := p.value(to)
	if err != nil {
		return Interval{}, err
	}
	return Interval{math.Min(a, b), math.Max(a, b)}, nil
}

func (p parser) single(text string) (Interval, error) {
	v, err := p.value(text)
	return Point(v), err
}
