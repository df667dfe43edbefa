package strict

import (
	"gopkg.in/yaml.v3"
)

// Kind is what a value is.
type Kind int

// The kinds of value. Broken marks a value that was reported already; readers pass over it in silence.
const (
	Broken Kind = iota
	Words       // text
	Numeral
	Truth // true or false
	List
	Mapping
)

// String names a kind as a message does.
func (k Kind) String() string {
	return [...]string{"something broken", "text", "a number", "true or false", "a list", "a mapping"}[k]
}

// Node is one value of a file and where it stands.
type Node struct {
	Pos  Pos
	Kind Kind

	value   string
	style   yaml.Style
	items   []*Node
	entries []Entry
	source  *Source
}

// Entry is one key of a mapping and its value.
type Entry struct {
	Key   Text
	Value *Node
}

// Problem records what is wrong with this value in its file. On a nil or broken node it does nothing.
func (n *Node) Problem(format string, args ...any) {
	if n != nil && n.Kind != Broken {
		n.source.Problem(n.Pos, format, args...)
	}
}

// Source returns the file this value is from.
func (n *Node) Source() *Source { return n.source }

// converter turns the library's nodes into ours, complaining on the way.
type converter struct {
	source *Source
	limits Limits
	count  int
}

func (c *converter) node(y *yaml.Node, depth int) *Node {
	n := &Node{Pos: c.source.clamp(y.Line, y.Column), style: y.Style, value: y.Value, source: c.source}
	c.count++
	switch {
	case c.count > c.limits.Nodes:
		if c.count == c.limits.Nodes+1 {
			c.source.Problem(n.Pos, "too many values; expected at most %d in a file", c.limits.Nodes)
		}
	case depth > c.limits.Depth:
		c.source.Problem(n.Pos, "nested too deeply; expected at most %d levels", c.limits.Depth)
	case c.refused(y, n.Pos):
	case y.Kind == yaml.ScalarNode:
		n.Kind = c.scalar(y, n.Pos)
	case y.Kind == yaml.SequenceNode:
		n.Kind = List
		c.list(n, y, depth)
	case y.Kind == yaml.MappingNode:
		n.Kind = Mapping
		c.mapping(n, y, depth)
	}
	return n
}

func (c *converter) list(n *Node, y *yaml.Node, depth int) {
	n.items = make([]*Node, 0, len(y.Content))
	for _, item := range y.Content {
		n.items = append(n.items, c.node(item, depth+1))
	}
	if y.Style&yaml.FlowStyle != 0 {
		c.splitByComma(y.Content, "[…]", "list")
	}
}

func (c *converter) mapping(n *Node, y *yaml.Node, depth int) {
	split := y.Style&yaml.FlowStyle != 0 && c.splitByComma(y.Content, "{…}", "mapping")
	seen := make(map[string]Pos, len(y.Content)/2)
	n.entries = make([]Entry, 0, len(y.Content)/2)
	for i := 0; i+1 < len(y.Content); i += 2 {
		key, value := y.Content[i], y.Content[i+1]
		if split && (value.Tag == "!!null" || key.Tag != "!!str") {
			continue // the comma was reported; the pieces it made mean nothing
		}
		text, ok := c.key(key, seen)
		switch {
		case !ok:
		case value.Tag == "!!null" && value.Style&yaml.TaggedStyle == 0 && value.Anchor == "":
			c.source.Problem(text.Pos, "%q has no value; write one, or leave the key out", text.Value)
			n.entries = append(n.entries, Entry{text, &Node{Pos: text.Pos, source: c.source}})
		default:
			n.entries = append(n.entries, Entry{text, c.node(value, depth+1)})
		}
	}
}
