package terminal

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Option is one thing that can be chosen, or one command that can be given in
// place of an answer.
type Option struct {
	// ID is a plain word or several joined by hyphens; it can be typed too.
	ID string
	// Text is what is shown; where it is empty the ID is.
	Text string
	// Detail is said below or beside it: what choosing it means.
	Detail string
	// Words says that a command takes what is typed behind it ("note loose lid").
	Words bool
	// Quiet says that a command is taken and not offered each time: help names it.
	Quiet bool
}

// Choice is what was chosen.
type Choice struct {
	// ID is the option's or the command's.
	ID string
	// Index is its place in the options, or in the commands.
	Index int
	// Command says that a command was given in place of an answer.
	Command bool
	// Words is what was typed behind a command that takes words; it may be empty.
	Words string
}

func (o Option) text() string {
	if o.Text == "" {
		return o.ID
	}
	return o.Text
}

// flatten gives options that each fit on a line of their own.
func flatten(options []Option) []Option {
	out := slices.Clone(options)
	for i, o := range out {
		out[i].Text, out[i].Detail = flat(o.text()), flat(o.Detail)
	}
	return out
}

// names are the ways of typing an option in full.
func (o Option) names() []string {
	return []string{fold(o.ID), fold(strings.ReplaceAll(o.ID, "-", " ")), fold(o.text())}
}

func fold(s string) string { return strings.ToLower(flat(s)) }

// Command finds the command that was typed in place of an answer: its ID or its
// Text in full, with words behind it only where it takes them.
func Command(typed string, commands []Option) (Choice, bool) {
	words := strings.Fields(plain(typed))
	for n := len(words); n > 0; n-- {
		said := fold(strings.Join(words[:n], " "))
		for i, c := range commands {
			if slices.Contains(c.names(), said) && (c.Words || n == len(words)) {
				return Choice{ID: c.ID, Index: i, Command: true, Words: strings.Join(words[n:], " ")}, true
			}
		}
	}
	return Choice{}, false
}

var numberTyped = regexp.MustCompile(`^[0-9]{1,4}[.)]?$`)

// exact finds what leaves no room for a second meaning: the number, the ID or
// the whole text of an option, or a command.
func exact(typed string, options, commands []Option) (Choice, bool) {
	said := fold(typed)
	if numberTyped.MatchString(said) {
		n, _ := strconv.Atoi(strings.TrimRight(said, ".)"))
		if n >= 1 && n <= len(options) {
			return Choice{ID: options[n-1].ID, Index: n - 1}, true
		}
	}
	for i, o := range options {
		if said != "" && slices.Contains(o.names(), said) {
			return Choice{ID: o.ID, Index: i}, true
		}
	}
	return Command(typed, commands)
}

// find gives what was typed its meaning, or one line that says what was
// expected. Beside what exact takes, an option's beginning will do where no
// other option begins so, and words of it that no other option has.
func find(typed string, options, commands []Option) (Choice, string) {
	if c, ok := exact(typed, options, commands); ok {
		return c, ""
	}
	said := fold(typed)
	if said == "" {
		return Choice{}, "Nothing was chosen: " + expected(options, commands)
	}
	var fits []int
	for i, o := range options {
		if slices.ContainsFunc(o.names(), func(name string) bool { return strings.HasPrefix(name, said) }) {
			fits = append(fits, i)
		}
	}
	if len(fits) == 0 {
		fits = withWords(said, options)
	}
	switch len(fits) {
	case 1:
		return Choice{ID: options[fits[0]].ID, Index: fits[0]}, ""
	case 0:
		return Choice{}, fmt.Sprintf("%q is none of these: %s", typed, expected(options, commands))
	}
	return Choice{}, fmt.Sprintf("%q fits %d of these (%s): type more of it, or the number.", typed, len(fits), numbers(fits))
}

// withWords lists the options that have every word that was typed.
func withWords(said string, options []Option) []int {
	var fits []int
	for i, o := range options {
		has := strings.FieldsFunc(strings.Join(o.names(), " "), notInWord)
		all := true
		for _, w := range strings.FieldsFunc(said, notInWord) {
			all = all && slices.Contains(has, w)
		}
		if all {
			fits = append(fits, i)
		}
	}
	return fits
}

// notInWord says whether a character parts words.
func notInWord(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' }

// expected says what can be typed.
func expected(options, commands []Option) string {
	var ways []string
	switch len(options) {
	case 0:
	case 1:
		ways = append(ways, "the number 1", "words of its text")
	default:
		ways = append(ways, fmt.Sprintf("a number from 1 to %d", len(options)), "words of one")
	}
	if len(commands) > 0 {
		ways = append(ways, "one of "+said(commands))
	}
	return "expected " + strings.Join(ways, ", or ") + "."
}

// said lists commands as they are typed.
func said(commands []Option) string {
	var words []string
	for _, c := range commands {
		word := spoken(c)
		if c.Words {
			word += " …"
		}
		words = append(words, word)
	}
	return strings.Join(words, ", ")
}

// spoken is a command's ID as it is typed.
func spoken(command Option) string { return flat(strings.ReplaceAll(command.ID, "-", " ")) }

func numbers(indexes []int) string {
	var out []string
	for _, i := range indexes {
		out = append(out, strconv.Itoa(i+1))
	}
	return strings.Join(out, ", ")
}
