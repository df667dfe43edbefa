package strict

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// decode gives the YAML library's tree of the only document, or nil after recording why not.
func (s *Source) decode() *yaml.Node {
	decoder := yaml.NewDecoder(strings.NewReader(s.text))
	first, err := next(decoder)
	switch {
	case errors.Is(err, io.EOF):
		s.Problem(s.pos(1, 1), "the file is empty; expected one YAML document")
		return nil
	case err != nil:
		s.syntax(err)
		return nil
	}
	second, err := next(decoder)
	switch {
	case errors.Is(err, io.EOF):
	case err != nil:
		s.syntax(err)
	default:
		s.Problem(s.clamp(second.Line, second.Column), "a second document starts here; expected one document in a file")
	}
	if len(first.Content) != 1 {
		return nil
	}
	return first.Content[0]
}

// next reads one document. The library panics on some broken input; that is a fault of the input, not of ours.
func next(decoder *yaml.Decoder) (doc *yaml.Node, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("yaml: this cannot be read (%v)", r)
		}
	}()
	doc = new(yaml.Node)
	return doc, decoder.Decode(doc)
}

var yamlMessage = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

func (s *Source) syntax(err error) {
	line, message := 0, err.Error()
	if m := yamlMessage.FindStringSubmatch(message); m != nil {
		line, _ = strconv.Atoi(m[1])
		message = m[2]
	}
	if line == 0 || !strings.Contains(message, "unexpected end of stream") { // for an open quote the line is right
		line = s.brokenLine(err)
	}
	text, _ := s.line(line)
	indent := len(text) - len(strings.TrimLeft(text, " "))
	s.Problem(s.clamp(line, indent+1), "%s", "not YAML: "+message+advice(message))
}

// brokenLine finds where the library gave up; its own message often names the line where the enclosing mapping
// began. It decodes again, handing over a line at a time. The last line taken is the one, or it was only looked at
// for how the broken one goes on: then the text fails in the same way without it.
func (s *Source) brokenLine(err error) int {
	lines := &lineReader{source: s}
	firstError(lines)
	at := min(lines.given, len(s.starts))
	before := at - 1
	for before > 0 && s.isIdle(before) {
		before--
	}
	if before > 0 && sameWords(err, firstError(strings.NewReader(s.text[:s.starts[before]]))) {
		return before
	}
	return at
}

func firstError(r io.Reader) error {
	decoder := yaml.NewDecoder(r)
	for {
		if _, err := next(decoder); err != nil {
			return err
		}
	}
}

// isIdle says whether a line is blank or only a comment.
func (s *Source) isIdle(line int) bool {
	text, _ := s.line(line)
	text = strings.TrimSpace(text)
	return text == "" || text[0] == '#'
}

func sameWords(a, b error) bool {
	ma, mb := yamlMessage.FindStringSubmatch(a.Error()), yamlMessage.FindStringSubmatch(b.Error())
	return ma != nil && mb != nil && ma[2] == mb[2]
}

type lineReader struct {
	source *Source
	given  int    // lines handed over
	rest   string // of the line being handed over
}

func (l *lineReader) Read(p []byte) (int, error) {
	if l.rest == "" {
		if l.given == len(l.source.starts) {
			return 0, io.EOF
		}
		end := len(l.source.text)
		if l.given+1 < len(l.source.starts) {
			end = l.source.starts[l.given+1]
		}
		l.rest = l.source.text[l.source.starts[l.given]:end]
		l.given++
	}
	n := copy(p, l.rest)
	l.rest = l.rest[n:]
	return n, nil
}

// advice turns the library's words into what usually happened.
func advice(message string) string {
	for _, known := range []struct{ part, advice string }{
		{"mapping values are not allowed", `; a text with ": " in it needs quotes`},
		{"cannot start any token", "; indent with spaces, and quote a text that begins with @, ` or %"},
		{"did not find expected key", "; check the indentation and the quotes"},
		{"did not find expected '-' indicator", "; check the indentation"},
		{"could not find expected ':'", "; a key needs a colon and a space"},
		{"unknown anchor", "; a text that begins with * needs quotes"},
		{"did not find expected alphabetic or numeric character", "; a text that begins with * or & needs quotes"},
		{"unexpected end of stream", "; a quote is not closed"},
		{"did not find expected ',' or", "; a bracket is not closed, or a text in it needs quotes"},
	} {
		if strings.Contains(message, known.part) {
			return known.advice
		}
	}
	return ""
}
