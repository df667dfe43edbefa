package formula

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"faultwalk/trees/spelling"
)

// Act is one thing done to a plant: a call made or released, a device worked,
// something that tripped reset, or minutes of waiting.
type Act struct {
	Verb string // one of Verbs
	Of   string // the call, the device or the part; empty of rest and wait
}

// Verbs are what can be done to a plant: call and release (a call), rest (all
// calls released), reset (a device or a part that tripped), off and on (a
// device), wait (until the slow rules have run to their end).
var Verbs = []string{"call", "release", "rest", "reset", "off", "on", "wait"}

// String writes the act as it is read.
func (a Act) String() string { return strings.TrimSpace(a.Verb + " " + a.Of) }

// ParseActs reads acts, one or several with commas between:
// "reset unit-breaker, call hot-water".
func ParseActs(text string) ([]Act, error) {
	acts, _, err := parseActs(text)
	return acts, err
}

// CheckActs gives what is wrong with acts, and where, in characters from 0.
func CheckActs(text string) (at int, err error) {
	_, at, err = parseActs(text)
	return at, err
}

// parseActs gives besides where an error is, in characters.
func parseActs(text string) (acts []Act, at int, err error) {
	for _, part := range strings.Split(text, ",") {
		lead := len(part) - len(strings.TrimLeft(part, " "))
		a, err := parseAct(part)
		if err != nil {
			return nil, at + lead, err
		}
		acts = append(acts, a)
		at += utf8.RuneCountInString(part) + 1
	}
	return acts, 0, nil
}

func parseAct(part string) (Act, error) {
	words := strings.Fields(part)
	if len(words) == 0 {
		return Act{}, fmt.Errorf("an act is empty; expected one of %s", spelling.Quoted(Verbs))
	}
	a := Act{Verb: words[0], Of: strings.Join(words[1:], " ")}
	alone := a.Verb == "rest" || a.Verb == "wait"
	switch {
	case !slices.Contains(Verbs, a.Verb):
		return a, fmt.Errorf("unknown act %q%s", a.Verb, suggest(a.Verb, Verbs))
	case alone && a.Of != "":
		return a, fmt.Errorf("found %q behind %q; expected nothing", a.Of, a.Verb)
	case !alone && len(words) != 2:
		return a, fmt.Errorf("%q is done to one thing; expected its id, as in \"reset unit-breaker\"", a.Verb)
	}
	return a, nil
}
