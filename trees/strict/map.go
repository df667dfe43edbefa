package strict

import (
	"strconv"
	"strings"

	"faultwalk/trees/spelling"
)

// Map reads one mapping key by key and remembers which keys were asked for, so that [Map.Done] can report the rest.
// Readers never stop: what is missing or of the wrong kind is recorded in the file's problems and a zero value
// returned. The map of something that is no mapping reads as empty and complains about nothing more.
type Map struct {
	Pos Pos

	what  string // "a step"
	node  *Node  // nil: reads as empty, in silence
	index map[string]int
	asked map[string]bool
}

// Map returns a reader of this mapping. What names it in messages, with its article: "a step".
func (n *Node) Map(what string) *Map {
	m := &Map{what: what, asked: map[string]bool{}}
	if n == nil {
		return m
	}
	m.Pos = n.Pos
	if n.expect(Mapping, what) {
		m.node = n
		m.index = make(map[string]int, len(n.entries))
		for i, e := range n.entries {
			m.index[e.Key.Value] = i
		}
	}
	return m
}

// Valid says whether there is a mapping behind this reader.
func (m *Map) Valid() bool { return m.node != nil }

// Has says whether the key is there, without reading it; the key counts as asked for only once it is read.
func (m *Map) Has(key string) bool {
	_, ok := m.index[key]
	return ok
}

// Problem records what is wrong with the mapping as a whole, at its first character.
func (m *Map) Problem(format string, args ...any) {
	if m.node != nil {
		m.node.Problem(format, args...)
	}
}

// KeyProblem records what is wrong at a key, or at the mapping if the key is not there.
func (m *Map) KeyProblem(key, format string, args ...any) {
	if i, ok := m.index[key]; ok {
		m.node.source.Problem(m.node.entries[i].Key.Pos, format, args...)
		return
	}
	m.Problem(format, args...)
}

// OptNode returns the value of a key as it is, or nil.
func (m *Map) OptNode(key string) *Node {
	m.asked[key] = true
	if i, ok := m.index[key]; ok {
		return m.node.entries[i].Value
	}
	return nil
}

// Node returns the value of a required key as it is, or nil after recording that it is missing.
func (m *Map) Node(key string) *Node {
	n := m.OptNode(key)
	if n == nil {
		m.Problem("%s needs %q%s", m.what, key, m.insteadOf(key))
	}
	return n
}

// insteadOf points at a key that looks like the missing one.
func (m *Map) insteadOf(key string) string {
	var others []string
	for k := range m.index {
		if !m.asked[k] {
			others = append(others, k)
		}
	}
	if near, ok := spelling.Nearest(key, others); ok {
		return "; found " + strconv.Quote(near)
	}
	return ""
}

// Text reads a required text that is not empty.
func (m *Map) Text(key string) Text { return m.Node(key).Text(quoted(key)) }

// OptText reads a text that may be missing but, if there, is not empty.
func (m *Map) OptText(key string) (Text, bool) {
	n := m.OptNode(key)
	return n.Text(quoted(key)), n != nil
}

// Scalar reads a required text, number, true or false as the text it is written as.
func (m *Map) Scalar(key string) Text { return m.Node(key).Scalar(quoted(key)) }

// OptScalar reads what Scalar reads, if the key is there.
func (m *Map) OptScalar(key string) (Text, bool) {
	n := m.OptNode(key)
	return n.Scalar(quoted(key)), n != nil
}

// Number reads a required number.
func (m *Map) Number(key string) Number { return m.Node(key).Number(quoted(key)) }

// OptNumber reads a number that may be missing.
func (m *Map) OptNumber(key string) (Number, bool) {
	n := m.OptNode(key)
	return n.Number(quoted(key)), n != nil
}

// Bool reads a required true or false.
func (m *Map) Bool(key string) bool { return m.Node(key).Bool(quoted(key)) }

// OptBool reads a true or false that may be missing.
func (m *Map) OptBool(key string) (value, there bool) {
	n := m.OptNode(key)
	return n.Bool(quoted(key)), n != nil
}

// Words reads a required list of texts, at least one.
func (m *Map) Words(key string) []Text { return m.Node(key).Words(quoted(key)) }

// OptWords reads a list of texts that may be missing but, if there, is not empty.
func (m *Map) OptWords(key string) []Text { return m.OptNode(key).Words(quoted(key)) }

// List reads a required list of values, at least one.
func (m *Map) List(key string) []*Node { return m.Node(key).List(quoted(key)) }

// OptList reads a list that may be missing but, if there, is not empty.
func (m *Map) OptList(key string) []*Node { return m.OptNode(key).List(quoted(key)) }

// Sub returns a reader of a required mapping inside this one. If it is missing the reader reads as empty.
func (m *Map) Sub(key string) *Map { return m.Node(key).Map(quoted(key)) }

// OptSub returns a reader of a mapping that may be missing.
func (m *Map) OptSub(key string) (*Map, bool) {
	n := m.OptNode(key)
	return n.Map(quoted(key)), n != nil
}

// Entries reads every key not read yet, in the order of the file, for mappings whose keys are free.
func (m *Map) Entries() []Entry {
	if m.node == nil {
		return nil
	}
	var rest []Entry
	for _, e := range m.node.entries {
		if !m.asked[e.Key.Value] {
			m.asked[e.Key.Value] = true
			rest = append(rest, e)
		}
	}
	return rest
}

// OneOf reads a required text that must be one of the allowed ones; for any other it returns the zero Text.
func (m *Map) OneOf(key string, allowed ...string) Text { return m.Text(key).oneOf(key, allowed) }

// OptOneOf reads what OneOf reads, if the key is there.
func (m *Map) OptOneOf(key string, allowed ...string) (Text, bool) {
	t, there := m.OptText(key)
	return t.oneOf(key, allowed), there
}

// Which says which one of the keys is there. None or several of them is a problem; the first is returned then,
// or "". The keys count as asked for.
func (m *Map) Which(keys ...string) string {
	var there []string
	for _, k := range keys {
		m.asked[k] = true
		if m.Has(k) {
			there = append(there, k)
		}
	}
	switch len(there) {
	case 0:
		m.Problem("%s needs one of %s", m.what, spelling.Quoted(keys))
		return ""
	case 1:
	default:
		m.KeyProblem(there[1], "%s has %s; expected only one of them", m.what, spelling.Quoted(there))
	}
	return there[0]
}

// Done reports every key nobody asked for. Call it after the last reader.
func (m *Map) Done() {
	if m.node == nil {
		return
	}
	var known []string
	for k := range m.asked {
		known = append(known, k)
	}
	for _, e := range m.node.entries {
		if !m.asked[e.Key.Value] {
			e.Key.Problem("unexpected key %q in %s%s", e.Key.Value, m.what, m.expected(e.Key.Value, known))
		}
	}
}

func (m *Map) expected(key string, known []string) string {
	var b strings.Builder
	switch len(known) {
	case 0:
		b.WriteString("; expected none")
	case 1:
		b.WriteString("; expected only " + spelling.Quoted(known))
	default:
		b.WriteString("; expected one of " + spelling.Quoted(known))
	}
	b.WriteString(spelling.DidYouMean(key, known))
	return b.String()
}

func quoted(key string) string { return strconv.Quote(key) }
