package trees

import (
	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

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
