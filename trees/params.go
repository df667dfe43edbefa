package trees

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

// paramUse is one `$name` or `$name.attribute` in a text. Start is in
// characters from 0; a name that is not declared has Known false.
type paramUse struct {
	Name, Attr string
	Known      bool
	Start      int
}

var paramPattern = regexp.MustCompile(`\$([a-z][a-z0-9]*(?:-[a-z0-9]+)*)`)
var attrPattern = regexp.MustCompile(`^\.([a-z][a-z0-9]*(?:-[a-z0-9]+)*)`)

// fillParams replaces every parameter of a text by what value gives for it.
// Where a name runs on with a hyphen, the longest declared name counts, so
// `$zone-valve` is zone's value and "-valve" unless zone-valve is declared. A
// name that is not declared is handed over whole.
func fillParams(text string, declared func(string) bool, value func(paramUse) string) string {
	if !strings.Contains(text, "$") {
		return text
	}
	var b strings.Builder
	at, runes := 0, 0
	for {
		found := paramPattern.FindStringSubmatchIndex(text[at:])
		if found == nil {
			break
		}
		start := at + found[0]
		u := paramUse{Start: runes + utf8.RuneCountInString(text[at:start])}
		u.Name, u.Known = longestDeclared(text[at+found[2]:at+found[3]], declared)
		end := start + 1 + len(u.Name)
		if attr := attrPattern.FindStringSubmatch(text[end:]); attr != nil {
			u.Attr = attr[1]
			end += len(attr[0])
		}
		b.WriteString(text[at:start])
		b.WriteString(value(u))
		at, runes = end, u.Start+utf8.RuneCountInString(text[start:end])
	}
	b.WriteString(text[at:])
	return b.String()
}

func longestDeclared(name string, declared func(string) bool) (string, bool) {
	for short := name; ; {
		if declared(short) {
			return short, true
		}
		i := strings.LastIndexByte(short, '-')
		if i < 0 {
			return name, false
		}
		short = short[:i]
	}
}

// isParam says whether a parameter of this name is declared.
func isParam(params []Param) func(string) bool {
	return func(name string) bool { return paramKind(params, name) != "" }
}

// paramKind gives the kind of a parameter, or "" where there is none.
func paramKind(params []Param, name string) string {
	for _, p := range params {
		if p.Name == name {
			return p.Kind
		}
	}
	return ""
}
