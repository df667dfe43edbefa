package strict

import (
	"fmt"
	"strconv"
	"strings"

	"faultwalk/trees/spelling"
)

// Number is a finite number and its place in the file.
type Number struct {
	Value float64
	Pos   Pos
	node  *Node
}

// Problem records what is wrong with this number.
func (v Number) Problem(format string, args ...any) { v.node.Problem(format, args...) }

// expect says whether the value is of that kind, recording a problem if not. What is a quoted key or words with
// their article.
func (n *Node) expect(kind Kind, what string) bool {
	if n.Kind == kind {
		return true
	}
	expected := kind.String()
	if kind == Mapping && !strings.HasPrefix(what, `"`) {
		expected = "a mapping (" + what + ")"
	} else {
		what = strings.TrimSpace("for " + what)
		expected += " " + what
	}
	n.Problem("found %s, expected %s%s", n.shown(), expected, n.remedy(kind))
	return false
}

// shown describes what was found, with the value where it is short.
func (n *Node) shown() string {
	switch n.Kind {
	case Words:
		return "the text " + strconv.Quote(short(n.value))
	case Numeral:
		return "the number " + short(n.value)
	case Truth:
		return n.value
	}
	return n.Kind.String()
}

func short(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

func (n *Node) remedy(wanted Kind) string {
	quotedText := n.Kind == Words && n.style != 0
	switch {
	case wanted == Words && (n.Kind == Numeral || n.Kind == Truth):
		return fmt.Sprintf("; write %q in quotes", n.value)
	case wanted == Numeral && quotedText && decimal.MatchString(n.value):
		return "; write it without quotes"
	case wanted == Truth && quotedText && (n.value == "true" || n.value == "false"):
		return "; write it without quotes"
	case wanted == List && n.Kind == Words:
		return "; write it as [" + short(n.value) + "]"
	}
	return ""
}

// Text reads this value as a text that is not empty. What says what it is: a quoted key, or words with their article.
// On a nil or broken node it returns the zero Text in silence, as every reader of Node does.
func (n *Node) Text(what string) Text {
	if n == nil || n.Kind == Broken || !n.expect(Words, what) {
		return Text{}
	}
	if strings.TrimSpace(n.value) == "" {
		n.Problem("the text for %s is empty; write one, or leave it out", what)
		return Text{}
	}
	return Text{Value: n.value, Pos: n.Pos, node: n}
}

// Scalar reads this value as the text it is written as, be it text, a number, true or false.
func (n *Node) Scalar(what string) Text {
	if n != nil && (n.Kind == Numeral || n.Kind == Truth) {
		return Text{Value: n.value, Pos: n.Pos, node: n}
	}
	return n.Text(what)
}

// Number reads this value as a finite number.
func (n *Node) Number(what string) Number {
	if n == nil || n.Kind == Broken || !n.expect(Numeral, what) {
		return Number{}
	}
	v, _ := strconv.ParseFloat(n.value, 64) // a numeral was found to be one, and finite, when the file was read
	return Number{Value: v, Pos: n.Pos, node: n}
}

// Bool reads this value as true or false.
func (n *Node) Bool(what string) bool {
	if n == nil || n.Kind == Broken || !n.expect(Truth, what) {
		return false
	}
	return strings.EqualFold(n.value, "true")
}

// List reads this value as a list of at least one value.
func (n *Node) List(what string) []*Node {
	if n == nil || n.Kind == Broken || !n.expect(List, what) {
		return nil
	}
	if len(n.items) == 0 {
		n.Problem("the list for %s is empty; write what belongs in it, or leave it out", what)
	}
	return n.items
}

// Words reads this value as a list of texts, at least one.
func (n *Node) Words(what string) []Text {
	var texts []Text
	for _, item := range n.List(what) {
		if t := item.Text("an item of " + what); t.Value != "" {
			texts = append(texts, t)
		}
	}
	return texts
}

// oneOf returns the text if it is among the allowed ones; otherwise it records what would have been right.
func (t Text) oneOf(key string, allowed []string) Text {
	if t.Value == "" {
		return t
	}
	for _, a := range allowed {
		if t.Value == a {
			return t
		}
	}
	t.Problem("found %q for %q; expected one of %s%s", short(t.Value), key, spelling.Quoted(allowed),
		spelling.DidYouMean(t.Value, allowed))
	return Text{}
}
