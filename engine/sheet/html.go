package sheet

import (
	"bytes"
	_ "embed"
	"html/template"
	"strings"
)

//go:embed sheet.gohtml
var pageTemplate string

// HTML writes a sheet as one page that needs nothing else: no script, no file,
// no network. It prints on A4 with page numbers (CSS Paged Media 3, margin
// boxes), or with its footer alone where a browser has none, and reads on a
// phone. Everything a person typed is escaped.
func HTML(s Sheet) ([]byte, error) {
	t, err := template.New("sheet").Funcs(functions(s)).Parse(pageTemplate)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := t.Execute(&b, s); err != nil {
		return nil, err
	}
	return []byte(clean(b.String())), nil
}

// functions are the words of the text sheet, for the template.
func functions(s Sheet) template.FuncMap {
	return template.FuncMap{
		"headline":   s.headline,
		"left":       s.leftWords,
		"course":     s.course,
		"clock":      s.clock,
		"when":       s.instantBy,
		"instant":    instant,
		"purpose":    purposeWords,
		"got":        (*Got).words,
		"between":    Reading.between,
		"judged":     Reading.judged,
		"typed":      Value.typedWords,
		"holds":      Hands.holds,
		"tester":     Hands.tester,
		"supply":     Supply.words,
		"device":     Device.words,
		"meter":      Instrument.words,
		"said":       Act.said,
		"reads":      Line.reads,
		"loaded":     Line.loaded,
		"causes":     Finding.words,
		"title":      Caution.title,
		"unknown":    unknownRules,
		"numbered":   numbered,
		"from":       func(i int, h Hands) string { return fromWhen(s, i, h) },
		"join":       func(list []string) string { return strings.Join(list, "; ") },
		"flat":       flat,
		"short":      short,
		"upper":      upper,
		"stop":       stop,
		"supervisor": s.supervisor,
	}
}

// supervisor is who watched last; empty if nobody did.
func (s Sheet) supervisor() string {
	name := ""
	for _, h := range s.Hands {
		name = h.Supervisor
	}
	return name
}
