package trees

import (
	"faultwalk/trees/strict"
)

// section reads one mapping whose texts may use the parameters in scope.
type section struct {
	*strict.Map
	node  *strict.Node
	scope []Param
}

// Limits of one thing: trees may come from outside, and what is compared with
// its own kind must stay few.
const (
	maxText  = 20_000 // bytes of a text
	maxItems = 64     // parameters, bands, answers, branches, options of one thing
)

// few gives the nodes of a list, no more of them than one thing may have.
func few(nodes []*strict.Node) []*strict.Node {
	if len(nodes) > maxItems {
		nodes[maxItems].Problem("the list has %d items; expected at most %d", len(nodes), maxItems)
		return nodes[:maxItems]
	}
	return nodes
}

// sub reads a mapping inside this one with the same parameters.
func (s *section) sub(n *strict.Node, what string) *section {
	return &section{n.Map(what), n, s.scope}
}

// id reads the key that names this thing.
func (s *section) id(key string) strict.Text {
	t := s.Text(key)
	if t.Value != "" && !idWord.MatchString(t.Value) {
		t.Problem("found %q for %q; expected a plain hyphenated word such as open-core", clip(t.Value), key)
		return strict.Text{}
	}
	return t
}

// text reads a required text.
func (s *section) text(key string) strict.Text { return s.used(s.Text(key)) }

// opt reads a text that may be missing.
func (s *section) opt(key string) strict.Text {
	t, _ := s.OptText(key)
	return s.used(t)
}

// prose reads a required text of which the place is not needed later.
func (s *section) prose(key string) string { return s.text(key).Value }

// optProse reads a text of which the place is not needed later and that may be missing.
func (s *section) optProse(key string) string { return s.opt(key).Value }

// texts reads a list of texts that may be missing.
func (s *section) texts(key string) []strict.Text {
	all := s.OptWords(key)
	if len(all) > maxItems {
		all[maxItems].Problem("the list has %d items; expected at most %d", len(all), maxItems)
		all = all[:maxItems]
	}
	for _, t := range all {
		s.used(t)
	}
	return all
}

// oneOrMore reads a text or a list of texts.
func (s *section) oneOrMore(key string) []strict.Text {
	n := s.OptNode(key)
	if n != nil && n.Kind == strict.List {
		return s.texts(key)
	}
	if t := s.used(n.Text(`"` + key + `"`)); t.Value != "" {
		return []strict.Text{t}
	}
	return nil
}

// number reads a number that may be missing and is not negative.
func (s *section) number(key string) float64 {
	n, there := s.OptNumber(key)
	if there && n.Value < 0 {
		n.Problem("found %v for %q; expected 0 or more", n.Value, key)
	}
	return n.Value
}

// yes reads true or false that may be missing.
func (s *section) yes(key string) bool {
	v, _ := s.OptBool(key)
	return v
}

func contains(words []string, word string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}
