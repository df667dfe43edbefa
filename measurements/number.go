package measurements

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

var (
	plainNumber = regexp.MustCompile(`^([+-]?)\s*([0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)\s*(.*)$`)
	// 2k2, 4k7, 0R5, 1M5, 3V3: the letter stands where the point would be (IEC 60062).
	letterPoint = regexp.MustCompile(`^([+-]?)\s*([0-9]+)([kKMGmRrVvΩ])([0-9]+)\s*(.*)$`)
	// 1,234 is a thousand to some and a little over one to others; 0,520 is not.
	eitherComma = regexp.MustCompile(`^[+-]?\s*[1-9][0-9]{0,2},[0-9]{3}([^0-9]|$)`)
	manyPoints  = regexp.MustCompile(`[0-9][.,][0-9]+[.,][0-9]`)
)

// tidy gives typed text one spelling: plain spaces, one minus sign, one omega.
func tidy(typed string) string {
	typed = strings.NewReplacer(
		"\u2212", "-", "\u2013", "-", "\u2014", "-", "\uff0d", "-",
		"\u2126", "Ω", "\u03bc", "µ", "º", "°",
		"\u00a0", " ", "\u2009", " ", "\u202f", " ",
	).Replace(typed)
	return strings.Join(strings.Fields(typed), " ")
}

// value reads one number with its unit, in SI units or °C.
func (p parser) value(text string) (float64, error) {
	if m := letterPoint.FindStringSubmatch(text); m != nil {
		return p.scaled(m[1], m[2]+"."+m[4], m[3]+m[5])
	}
	if err := p.separators(text); err != nil {
		return 0, err
	}
	m := plainNumber.FindStringSubmatch(text)
	if m == nil {
		return 0, p.nonsense()
	}
	return p.scaled(m[1], strings.Replace(m[2], ",", ".", 1), m[3])
}

// separators refuses numbers that two people would read differently.
func (p parser) separators(text string) error {
	if manyPoints.MatchString(text) {
		return p.refuse(quoted(p.typed) + " has more than one decimal point")
	}
	if m := eitherComma.FindString(text); m != "" {
		m = strings.TrimRight(m, " ")
		return p.refuse(fmt.Sprintf("%s could be thousands or decimals: type %s or %s",
			quoted(p.typed), digitsOnly(m, "."), digitsOnly(m, "")))
	}
	return nil
}

// digitsOnly rewrites "1,234V" as "1.234" or "1234".
func digitsOnly(text, comma string) string {
	return strings.TrimFunc(strings.Replace(text, ",", comma, 1), func(r rune) bool { return r < '0' || r > '9' })
}

// scaled joins number and unit in decimal, so that 0.52 m is exactly 0.00052.
func (p parser) scaled(sign, number, unit string) (float64, error) {
	exp, err := p.exponent(unit)
	if err != nil {
		return 0, err
	}
	if len(number) > 40 {
		return 0, p.refuse(quoted(p.typed) + " has more digits than a meter shows")
	}
	v, parseErr := strconv.ParseFloat(sign+number+"e"+strconv.Itoa(exp), 64)
	if parseErr != nil {
		return 0, p.nonsense()
	}
	if v == 0 {
		return 0, nil // no negative zero
	}
	return v, p.shown(v)
}

// shown refuses what no meter for the quantity can show.
func (p parser) shown(v float64) error {
	t, _ := p.q.traits()
	var found string
	switch {
	case v < 0 && t.domain.Lo == 0 && t.unit == "Ω":
		found = "no ohmmeter shows less than 0 Ω: null the leads and read again"
	case v < t.domain.Lo:
		found = fmt.Sprintf("%s is below what any meter for %s shows (%s)", quoted(p.typed), p.q, p.q.Format(t.domain.Lo))
	case v > t.most:
		found = fmt.Sprintf("%s is more than any meter for %s shows (%s)", quoted(p.typed), p.q, p.q.Format(t.most))
	case math.Abs(v) < smallest:
		found = quoted(p.typed) + " is smaller than any meter shows"
	default:
		return nil
	}
	err := p.refuse(found)
	err.Beyond = &Reading{Quantity: p.q, Value: Point(v), Typed: p.typed}
	return err
}

// split parts a typed value into its number and its unit.
func split(text string) (number, unit string) {
	if m := letterPoint.FindStringSubmatch(text); m != nil {
		return text, m[3]
	}
	if m := plainNumber.FindStringSubmatch(text); m != nil {
		return m[1] + m[2], m[3]
	}
	return text, ""
}
