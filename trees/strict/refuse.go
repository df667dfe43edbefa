package strict

import (
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"
)

// refused reports what YAML offers and a file here may not use.
func (c *converter) refused(y *yaml.Node, pos Pos) bool {
	switch {
	case y.Kind == yaml.AliasNode:
		c.source.Problem(pos, "found the alias *%s; expected the value itself, or quotes around a text that begins with *", y.Value)
	case y.Anchor != "":
		c.source.Problem(pos, "found the anchor &%s; expected the value without it, or quotes around a text that begins with &", y.Anchor)
	case y.Style&yaml.TaggedStyle != 0 || y.Kind == yaml.ScalarNode && c.source.startsWith(pos, '!'):
		c.source.Problem(pos, "found a tag; expected the value without it, or quotes around a text that begins with ! (write not for negation)")
	case y.Tag == "!!merge":
		c.source.Problem(pos, "found the merge key <<; expected the keys themselves")
	default:
		return false
	}
	return true
}

// key checks one key of a mapping: text, and not there already.
func (c *converter) key(y *yaml.Node, seen map[string]Pos) (Text, bool) {
	n := &Node{Pos: c.source.clamp(y.Line, y.Column), style: y.Style, value: y.Value, source: c.source}
	c.count++
	if c.refused(y, n.Pos) {
		return Text{}, false
	}
	if y.Kind != yaml.ScalarNode || y.Tag != "!!str" {
		c.source.Problem(n.Pos, "found %s as a key; expected text, in quotes if need be", described(y))
		return Text{}, false
	}
	if first, twice := seen[y.Value]; twice {
		c.source.Problem(n.Pos, "the key %q comes twice; it is at line %d, column %d already", y.Value, first.Line, first.Col)
		return Text{}, false
	}
	seen[y.Value] = n.Pos
	n.Kind = Words
	return Text{Value: y.Value, Pos: n.Pos, node: n}, true
}

func described(y *yaml.Node) string {
	switch {
	case y.Kind == yaml.MappingNode:
		return "a mapping"
	case y.Kind == yaml.SequenceNode:
		return "a list"
	case y.Tag == "!!null":
		return "nothing"
	case y.Tag == "!!bool":
		return y.Value
	}
	return "the number " + y.Value
}

var (
	decimal     = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][-+]?[0-9]+)?$`)
	leadingZero = regexp.MustCompile(`^[-+]?0[0-9]+`)
)

// scalar decides what a value is, and refuses what YAML would read as something the author did not write.
func (c *converter) scalar(y *yaml.Node, pos Pos) Kind {
	switch y.Tag {
	case "!!str", "!!timestamp": // a date stays the text it is
		return Words
	case "!!bool":
		return Truth
	case "!!null":
		c.source.Problem(pos, "nothing stands here; expected a value")
		return Broken
	case "!!int", "!!float":
		return c.number(y.Value, pos)
	}
	c.source.Problem(pos, "found a value of the kind %s; expected text, a number, true or false", y.Tag)
	return Broken
}

func (c *converter) number(value string, pos Pos) Kind {
	switch lower := strings.ToLower(value); {
	case strings.Contains(lower, "inf") || strings.Contains(lower, "nan"):
		c.source.Problem(pos, "found %s; expected a finite number, or quotes around a text", value)
	case leadingZero.MatchString(value):
		c.source.Problem(pos, "found %s, which YAML reads as octal; expected a number without the leading 0, or quotes around a text", value)
	case !decimal.MatchString(value):
		c.source.Problem(pos, "found %s; expected a plain decimal number such as 1500 or 0.5, or quotes around a text", value)
	default:
		return Numeral
	}
	return Broken
}

// splitByComma reports, once for each mapping or list in brackets, a text that a comma cut in pieces:
// {if: between(reading, 5, 10)} is three keys to YAML.
func (c *converter) splitByComma(content []*yaml.Node, brackets, what string) bool {
	for i, y := range content {
		piece := what == "mapping" && i%2 == 1 && y.Tag == "!!null" && y.Value == "" || unbalanced(y)
		if !piece {
			continue
		}
		if what == "mapping" && i%2 == 1 {
			y = content[i-1]
		}
		c.source.Problem(c.source.clamp(y.Line, y.Column), "a comma inside %s splits: write this %s in block style", brackets, what)
		return true
	}
	return false
}

func unbalanced(y *yaml.Node) bool {
	return y.Kind == yaml.ScalarNode && y.Style == 0 && strings.Count(y.Value, "(") != strings.Count(y.Value, ")")
}
