package strict

// blockPlaces maps a text written after | or >. The indentation is what the first line with words has more in the
// file than in the value, so an indentation indicator needs no reading of its own.
func (n *Node) blockPlaces() []place {
	value := []rune(n.value)
	b := &block{value: value, indent: -1, last: place{n.Pos.Line, n.Pos.Col}}
	for line := n.Pos.Line + 1; len(b.places) < len(value); line++ {
		text, ok := n.source.line(line)
		if !ok || !b.add([]rune(text), line) {
			return nil
		}
	}
	return append(b.places, b.last)
}

type block struct {
	value  []rune
	indent int // -1 until a line with words was met
	places []place
	last   place
}

// add takes one line of the file and says whether it is what the value goes on with.
func (b *block) add(text []rune, line int) bool {
	rest := b.value[len(b.places):]
	if b.indent < 0 && leadingSpaces(text) < len(text) {
		b.indent = max(leadingSpaces(text)-leadingSpaces(rest), 0)
	}
	var content []rune
	if b.indent >= 0 {
		content = text[min(b.indent, len(text)):]
	}
	if !hasPrefix(rest, content) {
		return false
	}
	for i := range content {
		b.places = append(b.places, place{line, b.indent + i + 1})
	}
	rest = rest[len(content):]
	b.last = place{line, max(b.indent, 0) + len(content) + 1}
	if len(rest) > 0 && (rest[0] == '\n' || rest[0] == ' ' && len(content) > 0) {
		b.places = append(b.places, b.last)
	}
	return true
}

func leadingSpaces(text []rune) (n int) {
	for n < len(text) && text[n] == ' ' {
		n++
	}
	return n
}

func hasPrefix(text, prefix []rune) bool {
	return len(text) >= len(prefix) && string(text[:len(prefix)]) == string(prefix)
}
