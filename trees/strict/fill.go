package strict

// Fill returns a copy of this value and all in it with every text, keys included, replaced by what fill gives for
// it; a text written without quotes may become a number or true or false. The copy records into a source of its own,
// which [Node.Source] gives, so a template can be read once for each use without the uses mixing their problems.
// Places inside a text that was replaced are the place where it begins.
func (n *Node) Fill(fill func(Text) string) *Node {
	if n == nil {
		return nil
	}
	f := &filler{fill: fill, source: &Source{
		File: n.source.File, text: n.source.text, starts: n.source.starts, limit: n.source.limit}}
	f.source.Root = f.node(n)
	return f.source.Root
}

type filler struct {
	source *Source
	fill   func(Text) string
}

func (f *filler) node(n *Node) *Node {
	filled := *n
	filled.source = f.source
	filled.items, filled.entries = nil, nil
	for _, item := range n.items {
		filled.items = append(filled.items, f.node(item))
	}
	if n.Kind == Words {
		f.words(&filled)
	}
	f.mapping(&filled, n.entries)
	return &filled
}

func (f *filler) mapping(filled *Node, entries []Entry) {
	seen := make(map[string]bool, len(entries))
	for _, e := range entries {
		key := *e.Key.node
		key.source = f.source
		f.words(&key)
		if seen[key.value] {
			f.source.Problem(key.Pos, "the key %q comes twice once the parameters are filled in", key.value)
			continue
		}
		seen[key.value] = true
		filled.entries = append(filled.entries, Entry{Text{key.value, key.Pos, &key}, f.node(e.Value)})
	}
}

// words fills in one text and decides again what a plain one is.
func (f *filler) words(n *Node) {
	value := f.fill(Text{n.value, n.Pos, n})
	if value == n.value {
		return
	}
	n.value = value
	switch {
	case n.style != 0:
	case decimal.MatchString(value):
		n.Kind = Numeral
	case value == "true" || value == "false":
		n.Kind = Truth
	}
}
