package trees

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// Change is one thing a fault does to a plant.
//
//	lock V to X           the variable V stays X
//	start V to X          V is X where history begins, until something moves it
//	open B                the branch B is not there
//	ohms B N              the branch B has N ohms, whatever its model says
//	add A B N ohms        a branch more, between two nodes
//	add A B N nF          a capacitance, with "M ohms" behind it in series with those
//	land C at P on Q      the end of the core C that was at the point P is at Q
//
// V may also be "box E wet", "box E burnt", "setting S", "device D on" and
// "device D tripped": see Thing. In an assembly's fault V is part.variable and
// B is part/branch.
type Change struct {
	Verb      string // lock, start, open, ohms, add, land
	Thing, Of string // box, setting or device and its id; empty for a part's own
	Name      string // the variable or branch; of land the core
	To        string // the value of lock and start: a number, true, false or a word
	From, On  string // the nodes of add; the points of land
	Ohms      float64
	Farads    float64 // of add, 0 for none
}

var changeForms = map[string]string{
	"lock":  `"lock V to X", such as "lock made to false" or "lock box valve-box wet to true"`,
	"start": `"start V to X", such as "start tripped to true"`,
	"open":  `"open B", such as "open winding"`,
	"ohms":  `"ohms B 2000"`,
	"add":   `"add A B 4000 ohms", "add A B 100 nF" or "add A B 100 nF 100 ohms"`,
	"land":  `"land C at P on Q"`,
}

// ParseChange reads what a fault does.
func ParseChange(text string) (Change, error) {
	c, _, err := parseChange(text)
	return c, err
}

// parseChange gives besides where an error is, in characters.
func parseChange(text string) (Change, int, error) {
	words := strings.Fields(text)
	if len(words) == 0 {
		return Change{}, 0, fmt.Errorf("a change is empty; expected one of %s", spelling.Quoted(keysOf(changeForms)))
	}
	c := Change{Verb: words[0]}
	form, known := changeForms[c.Verb]
	if !known {
		return c, 0, fmt.Errorf("unknown change %q; expected one of %s%s", clip(c.Verb), spelling.Quoted(keysOf(changeForms)),
			spelling.DidYouMean(c.Verb, keysOf(changeForms)))
	}
	if !c.read(words[1:]) {
		at := utf8.RuneCountInString(c.Verb) + 1
		return c, min(at, utf8.RuneCountInString(text)), fmt.Errorf("%q cannot be read; expected %s", clip(text), form)
	}
	return c, 0, nil
}

// read takes the words behind the verb.
func (c *Change) read(w []string) bool {
	switch c.Verb {
	case "lock", "start":
		return c.held(w)
	case "open":
		return len(w) == 1 && take(w, &c.Name)
	case "ohms":
		return len(w) == 2 && take(w, &c.Name) && quantity(w[1], "0", &c.Ohms)
	case "land":
		return len(w) == 5 && w[1] == "at" && w[3] == "on" && take(w, &c.Name) && take(w[2:], &c.From) && take(w[4:], &c.On)
	}
	return len(w) >= 4 && take(w, &c.From, &c.On) && c.added(w[2:])
}

func take(w []string, to ...*string) bool {
	for i, t := range to {
		*t = w[i]
	}
	return true
}

// held reads "V to X" and "box E wet to X".
func (c *Change) held(w []string) bool {
	n := len(w)
	if n < 3 || w[n-2] != "to" {
		return false
	}
	c.To = w[n-1]
	switch w = w[:n-2]; {
	case len(w) == 1:
		return take(w, &c.Name)
	case len(w) == 2 && w[0] == "setting":
		return take(w, &c.Thing, &c.Of)
	case len(w) == 3 && w[0] == "box" && (w[2] == "wet" || w[2] == "burnt"), len(w) == 3 && w[0] == "device" && (w[2] == "on" || w[2] == "tripped"):
		return take(w, &c.Thing, &c.Of, &c.Name)
	}
	return false
}

// added reads "N ohms", "N nF" and "N nF M ohms".
func (c *Change) added(w []string) bool {
	switch {
	case len(w) == 2 && w[1] == "ohms":
		return quantity(w[0], "", &c.Ohms)
	case (len(w) == 2 || len(w) == 4 && w[3] == "ohms") && w[1] == "nF":
		if !quantity(w[0], "", &c.Farads) {
			return false
		}
		c.Farads /= 1e9
		return len(w) == 2 || quantity(w[2], "", &c.Ohms)
	}
	return false
}

// quantity reads a number above 0; "0" as least lets nought pass.
func quantity(word, least string, to *float64) bool {
	v, err := strconv.ParseFloat(word, 64)
	*to = v
	return err == nil && !math.IsInf(v, 0) && (v > 0 || v == 0 && least == "0")
}

// fits says what is wrong with the value of what every plant has: a box, a
// device, a setting.
func (c Change) fits() error {
	holds, known := Implicit(c.Thing, c.Name)
	if !known {
		return nil
	}
	return holds.Fits(strings.TrimSpace(c.Thing+" "+c.Of+" "+c.Name), c.To)
}

// toAt is where the value stands in the text that a change was read from.
func (c Change) toAt(t strict.Text) strict.Pos {
	return t.AtOffset(utf8.RuneCountInString(strings.TrimRight(t.Value, " ")) - utf8.RuneCountInString(c.To))
}

func keysOf(m map[string]string) []string { return slices.Collect(maps.Keys(m)) }
