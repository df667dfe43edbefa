package trees

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

// Ref names a check, a cause or a routine with its parameters in order. Its
// String is the instance text, which is the id of the bound thing everywhere.
type Ref struct {
	Name string
	Args []Arg
}

// Arg is one parameter of a reference and its value, one word.
type Arg struct{ Name, Value string }

// String gives the reference as it is written: "driven at limit-out calling hot-water".
func (r Ref) String() string {
	var b strings.Builder
	b.WriteString(r.Name)
	for _, a := range r.Args {
		b.WriteString(" " + a.Name + " " + a.Value)
	}
	return b.String()
}

// Arg returns the value of a parameter and whether it is given.
func (r Ref) Arg(name string) (string, bool) {
	for _, a := range r.Args {
		if a.Name == name {
			return a.Value, true
		}
	}
	return "", false
}

// ParseRef reads a reference: a name, then pairs of a parameter and its value,
// all single words. Whether the name and the parameters exist is not asked.
// The error says what was expected.
func ParseRef(text string) (Ref, error) {
	ref, _, err := parseRef(text)
	return ref, err
}

const refExample = `expected a name, then pairs of a parameter and its value, like "driven at limit-out calling hot-water"`

var (
	idWord    = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)
	valueWord = regexp.MustCompile(`^\$?[A-Za-z0-9][A-Za-z0-9-]*(\.[a-z][a-z0-9-]*)?$`)
)

// parseRef gives, with the error, the character (from 0) where it stands.
func parseRef(text string) (Ref, int, error) {
	words, starts := splitWords(text)
	if len(words) == 0 {
		return Ref{}, 0, fmt.Errorf("the reference is empty; %s", refExample)
	}
	if !idWord.MatchString(words[0]) {
		return Ref{}, starts[0], fmt.Errorf("%q is no name; %s", clip(words[0]), refExample)
	}
	ref := Ref{Name: words[0]}
	for i := 1; i < len(words); i += 2 {
		if err := checkPair(ref, words[i:]); err != nil {
			return Ref{}, starts[i], err
		}
		if !valueWord.MatchString(words[i+1]) {
			return Ref{}, starts[i+1], fmt.Errorf("%q is no value of the parameter %q; expected one plain word", clip(words[i+1]), words[i])
		}
		ref.Args = append(ref.Args, Arg{words[i], words[i+1]})
	}
	return ref, 0, nil
}

// checkPair looks at the parameter name that rest begins with.
func checkPair(ref Ref, rest []string) error {
	name := rest[0]
	if !idWord.MatchString(name) {
		return fmt.Errorf("%q is no name of a parameter; %s", clip(name), refExample)
	}
	if _, twice := ref.Arg(name); twice {
		return fmt.Errorf("the parameter %q comes twice", name)
	}
	if len(rest) == 1 {
		return fmt.Errorf("%q has no value; %s", name, refExample)
	}
	return nil
}

// splitWords splits at blanks and gives where each word begins, in characters.
func splitWords(text string) (words []string, starts []int) {
	words = strings.Fields(text)
	at, before := 0, 0
	for _, w := range words {
		i := strings.Index(text[at:], w) + at
		before += utf8.RuneCountInString(text[at:i])
		starts = append(starts, before)
		before += utf8.RuneCountInString(w)
		at = i + len(w)
	}
	return words, starts
}

// clip keeps a hostile name from filling the line.
func clip(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
