package trees

import (
	"faultwalk/trees/spelling"
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

// params reads the parameters a template declares and puts them in scope.
func (s *section) params(kinds []string) []Param {
	m, there := s.OptSub("of")
	if !there {
		return nil
	}
	var all []Param
	for i, e := range m.Entries() {
		if i == maxItems {
			e.Key.Problem("more than %d parameters; expected at most that", maxItems)
			break
		}
		if !idWord.MatchString(e.Key.Value) {
			e.Key.Problem("found the parameter %q; expected a plain hyphenated word such as at", clip(e.Key.Value))
			continue
		}
		kind := e.Value.Text("the kind of " + e.Key.Value)
		if !oneOfWords(kind, "kind of parameter", kinds) {
			kind.Value = unknownKind // so that its uses are not reported too
		}
		all = append(all, Param{Name: e.Key.Value, Kind: kind.Value, Pos: e.Key.Pos})
	}
	s.scope = all
	return all
}

// used checks the parameters that a text uses against the ones declared. The
// first few wrong ones of a text are enough to say.
func (s *section) used(t strict.Text) strict.Text {
	if len(t.Value) > maxText {
		t.Problem("the text has %d bytes; expected at most %d", len(t.Value), maxText)
		return strict.Text{}
	}
	said := 0
	fillParams(t.Value, isParam(s.scope), func(u paramUse) string {
		if said < 5 && s.wrong(t, u) {
			said++
		}
		return ""
	})
	return t
}

// wrong reports one use of a parameter that is not declared or has no such attribute.
func (s *section) wrong(t strict.Text, u paramUse) bool {
	if !u.Known {
		t.ProblemAt(t.AtOffset(u.Start), "the parameter $%s is not declared%s", u.Name, s.declared(u.Name))
		return true
	}
	kind := paramKind(s.scope, u.Name)
	allowed, closed := attributes[kind]
	if u.Attr == "" || !closed || contains(allowed, u.Attr) {
		return false
	}
	t.ProblemAt(t.AtOffset(u.Start), "$%s is a %s, which has no %q; %s", u.Name, kind, u.Attr, expectedOf(allowed))
	return true
}

// attributes of parameters by kind. A part has its terminals, so any name will do there.
var attributes = map[string][]string{
	"point":     {"neutral", "earth", "enclosure"},
	"core":      {"from", "to", "enclosure"},
	"chain":     {"from", "to"},
	"call":      nil,
	"setting":   nil,
	"word":      nil,
	"number":    nil,
	"enclosure": nil,
}

// unknownKind stands for the kind of a parameter that was reported.
const unknownKind = "unknown"

func expectedOf(allowed []string) string {
	if len(allowed) == 0 {
		return "expected nothing after it"
	}
	return "expected one of " + spelling.Quoted(allowed)
}

func (s *section) declared(name string) string {
	if len(s.scope) == 0 {
		return "; nothing is declared with `of:`"
	}
	var names []string
	for _, p := range s.scope {
		names = append(names, p.Name)
	}
	return "; expected one of " + spelling.Quoted(names) + spelling.DidYouMean(name, names)
}

func contains(words []string, word string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}
