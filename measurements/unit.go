package measurements

import (
	"fmt"
	"regexp"
	"strings"
)

// currentKind finds the ac or dc people add to a unit: "V ac", "Vdc", "a.c.".
var currentKind = regexp.MustCompile(`(?i)^(|.*[va]|.*\s)(a\.?c|d\.?c)\.?$`)

// exponent gives the power of ten a unit stands for in the parser's quantity,
// refusing a unit of something else.
func (p parser) exponent(text string) (int, error) {
	t, _ := p.q.traits()
	text = strings.TrimSpace(trimFold(strings.TrimSpace(text), "rms"))
	if m := currentKind.FindStringSubmatch(text); m != nil {
		kind := strings.ToLower(strings.ReplaceAll(m[2], ".", ""))
		if t.kind != "" && kind != t.kind || t.unit == "Ω" || t.unit == "°C" {
			return 0, p.contradicts(kind)
		}
		text = strings.TrimSpace(m[1])
	}
	if text == "" {
		return t.bareExp, nil
	}
	exp, unit, ok := symbol(text)
	switch {
	case !ok:
		return 0, p.nonsense()
	case unit != "" && unit != t.unit:
		return 0, p.contradicts(unitName(unit))
	case t.unit == "°C" && exp != 0:
		return 0, p.nonsense()
	case p.q == Insulation && exp < 0:
		return 0, p.refuse(quoted(p.typed) + " says milliohms: type M for megohms")
	}
	return exp, nil
}

func (p parser) contradicts(found string) *NotAReading {
	return p.refuse(fmt.Sprintf("%s is in %s and this check reads %s", quoted(p.typed), found, p.q))
}

// symbol reads a unit with its prefix; unit is "" for a prefix alone.
func symbol(text string) (exp int, unit string, ok bool) {
	if unit, ok = unitOf(text); ok {
		return 0, unit, true
	}
	for _, prefix := range prefixes() {
		rest, found := strings.CutPrefix(text, prefix.text)
		if prefix.word {
			rest, found = cutFold(text, prefix.text)
		}
		if !found {
			continue
		}
		rest = strings.TrimSpace(rest)
		if rest == "" {
			return prefix.exp, "", true
		}
		if unit, ok = unitOf(rest); ok && unit != "°C" {
			return prefix.exp, unit, true
		}
	}
	return 0, "", false
}

type prefix struct {
	text string
	exp  int
	word bool // spelled out: the case of its letters says nothing
}

// prefixes are tried in order, words before the letters they begin with. The
// case of a lone letter counts: m is a thousandth and M a million.
func prefixes() []prefix {
	return []prefix{
		{"milli", -3, true}, {"micro", -6, true}, {"kilo", 3, true}, {"kil", 3, true},
		{"mega", 6, true}, {"megs", 6, true}, {"meg", 6, true}, {"giga", 9, true},
		{"k", 3, false}, {"K", 3, false}, {"M", 6, false}, {"m", -3, false},
		{"G", 9, false}, {"µ", -6, false}, {"u", -6, false},
	}
}

// unitOf knows the units people type, their own and those of other checks.
func unitOf(text string) (unit string, ok bool) {
	switch strings.ToLower(strings.ReplaceAll(text, " ", "")) {
	case "v", "volt", "volts":
		return "V", true
	case "a", "amp", "amps", "ampere", "amperes":
		return "A", true
	case "ω", "r", "ohm", "ohms":
		return "Ω", true
	case "c", "°c", "°", "deg", "degc", "degs", "degree", "degrees", "degreesc", "celsius", "centigrade":
		return "°C", true
	case "f", "°f", "degf", "degreesf", "fahrenheit":
		return "°F", true
	case "w", "watt", "watts":
		return "W", true
	case "hz", "hertz":
		return "Hz", true
	case "bar":
		return "bar", true
	}
	return "", false
}

// unitName is the plural a person calls a unit by.
func unitName(unit string) string {
	names := map[string]string{"V": "volts", "A": "amps", "Ω": "ohms", "°C": "degrees Celsius", "°F": "degrees Fahrenheit", "W": "watts", "Hz": "hertz", "bar": "bar"}
	return names[unit]
}

// cutFold is strings.CutPrefix without regard to case.
func cutFold(text, prefix string) (rest string, found bool) {
	if len(text) < len(prefix) || !strings.EqualFold(text[:len(prefix)], prefix) {
		return text, false
	}
	return text[len(prefix):], true
}

// trimFold is strings.TrimSuffix without regard to case.
func trimFold(text, suffix string) string {
	if at := len(text) - len(suffix); at >= 0 && strings.EqualFold(text[at:], suffix) {
		return text[:at]
	}
	return text
}
