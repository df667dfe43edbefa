package strict

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"
)

// mark stands once in each scalar below; its place in the file is what offsets must lead to.
const mark = "◆"

func TestAnOffsetInATextLeadsToItsPlaceInTheFile(t *testing.T) {
	t.Parallel()
	for name, src := range map[string]string{
		"plain":                      "a: ln < ◆\n",
		"plain after wide letters":   "a: Ωü < ◆ b\n",
		"plain over lines":           "a: ln <\n  5 and\n\n\n  x < ◆ b\n",
		"plain with blanks at end":   "a: ln  \n   and ◆\n",
		"plain with a remark":        "a: ln < ◆ # remark\n",
		"plain in a list":            "- [x, ln < ◆, y]\n",
		"single quotes":              "a: 'ln < ''x'' ◆ b'\n",
		"single quotes over lines":   "a: 'ln   \n\n  <  ◆ b'\n",
		"double quotes":              `a: "ln < ◆"` + "\n",
		"double quotes with escapes": `a: "\tx \"y\" \x41\u00e9\U0001F600 \\ ◆ b"` + "\n",
		"double quotes over lines":   "a: \"ln\n   <\n\n  5\\\n     and \\\n  ◆ b\"\n",
		"double quotes, kept blank":  "a: \"ln\\ \n   ◆\"\n",
		"literal":                    "a: |\n  ln < 5\n  and ◆ b\n",
		"literal, deeper lines":      "a: |\n  ln < 5\n\n      and ◆ b\n",
		"literal, blank lines first": "a: |\n\n\n  ◆ b\n",
		"literal, indentation given": "a: |2-\n    ln\n  ◆ b\n",
		"folded":                     "a: >\n  ln < 5\n  and ◆ b\n",
		"folded, stripped":           "a: >-\n  ln < 5\n\n  and\n  ◆ b\n",
		"folded, deeper lines":       "a: >\n  ln\n    < 5\n  and ◆ b\n",
		"windows line ends":          "a: |\r\n  ln\r\n  ◆ b\r\n",
		"windows line ends, plain":   "a: ln\r\n  ◆ b\r\n",
	} {
		s := parse(src)
		text := firstText(s.Root, mark)
		before, _, found := strings.Cut(text.Value, mark)
		if !found {
			t.Fatalf("%s: %v in %q", name, s.Problems(), text.Value)
		}
		want := placeOf(src, mark)
		if got := text.AtOffset(utf8.RuneCountInString(before)); got != want {
			t.Errorf("%s: at %v, want %v", name, got, want)
		}
		line := strings.Count(before, "\n")
		column := utf8.RuneCountInString(before[strings.LastIndexByte(before, '\n')+1:])
		if got := text.At(line+1, column); got != want {
			t.Errorf("%s: line %d column %d at %v, want %v", name, line+1, column, got, want)
		}
	}
}

func firstText(n *Node, containing string) Text {
	if n == nil {
		return Text{}
	}
	if n.Kind == Words && strings.Contains(n.value, containing) {
		return n.Text("a test")
	}
	for _, e := range n.entries {
		if t := firstText(e.Value, containing); t.Value != "" {
			return t
		}
	}
	for _, item := range n.items {
		if t := firstText(item, containing); t.Value != "" {
			return t
		}
	}
	return Text{}
}

func placeOf(src, mark string) Pos {
	before, _, _ := strings.Cut(src, mark)
	return Pos{"f.yaml", strings.Count(before, "\n") + 1, utf8.RuneCountInString(before[strings.LastIndexByte(before, '\n')+1:]) + 1}
}

func TestOffsetsBeyondATextLeadToItsEnd(t *testing.T) {
	t.Parallel()
	text := parse("a: ln <\nb: c\n").Root.Map("a test").Text("a")
	end := Pos{"f.yaml", 1, 8}
	for _, got := range []Pos{text.AtOffset(4), text.AtOffset(99), text.At(1, 99), text.At(9, 0)} {
		if got != end {
			t.Errorf("at %v, want %v", got, end)
		}
	}
	if got := text.AtOffset(-3); got != text.Pos {
		t.Errorf("before the text: %v", got)
	}
	if got := (Text{}).AtOffset(3); got != (Pos{}) {
		t.Errorf("no text: %v", got)
	}
}

func TestAProblemInsideATextIsRecordedThere(t *testing.T) {
	t.Parallel()
	s := parse("a: |\n  ln <\n  x\n")
	text := s.Root.Map("a test").Text("a")
	text.ProblemAt(text.At(2, 0), "unknown name")
	Text{}.ProblemAt(Pos{}, "nowhere")
	expectProblems(t, s, "f.yaml:3:3: unknown name")
}

// checkPlaces holds for every text of every file: each of its characters stands at its place, unless an escape or a
// line end stands for it.
func checkPlaces(t *testing.T, s *Source, text Text) {
	t.Helper()
	if utf8.RuneCountInString(text.Value) > 200 || len(s.text) > 4000 || strings.TrimSpace(text.Value) == "" { // each look-up reads the text again
		return
	}
	for i, r := range []rune(text.Value) {
		p := text.AtOffset(i)
		line, ok := s.line(p.Line)
		runes := []rune(line)
		if !ok || p.Col < 1 || p.Col > len(runes)+1 {
			t.Fatalf("%q of %q: offset %d outside the file, at %v", text.Value, s.text, i, p)
		}
		if text.node.places() == nil {
			t.Fatalf("%q of %q has no places", text.Value, s.text)
		}
		if p.Col > len(runes) || runes[p.Col-1] == '\\' || isBlank(runes[p.Col-1]) {
			continue
		}
		if runes[p.Col-1] != r {
			t.Fatalf("%q of %q: offset %d (%q) leads to %q at %v", text.Value, s.text, i, r, runes[p.Col-1], p)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, src := range []string{"", "a: b", "a: [1, {b: c}]\n- x", "a: |\n  x\n\n  y\n", "a: >+\n  x\n   y\n\n", "a: \"\\x41 \\\n b\"", "a: 'x''\n\n y'",
		"? a\n: b\n", "a: &x\n  b: *x\n", "{a: b, 5, ]", "%YAML 1.1\n---\na\n...\n", "a:\n- b\n-\n", "\uFEFFa: 010", "a: !x b", "a: b # c", string(steps(2))} {
		f.Add([]byte(src))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		if len(src) > 1<<16 {
			return
		}
		s := Parse("f", src, Limits{Size: 1 << 16})
		checkNode(t, s, s.Root)
		for _, p := range s.Problems() {
			if line, ok := s.line(p.Line); !ok || p.Col < 1 || p.Col > utf8.RuneCountInString(line)+1 {
				t.Fatalf("%q: problem outside the file: %v", src, p)
			}
			if strings.ContainsAny(p.Message, "\n\r\x00") {
				t.Fatalf("%q: message of several lines: %q", src, p.Message)
			}
		}
	})
}

// checkNode reads a value in every way there is.
func checkNode(t *testing.T, s *Source, n *Node) {
	if n == nil {
		return
	}
	n.Number("a number")
	n.Bool("a truth")
	n.Words("words")
	if n.Kind == Words {
		checkPlaces(t, s, Text{Value: n.value, Pos: n.Pos, node: n})
	}
	m := n.Map("a test")
	for _, e := range n.entries {
		checkPlaces(t, s, e.Key)
		m.Text(e.Key.Value)
		checkNode(t, s, e.Value)
	}
	m.Done()
	for _, item := range n.items {
		checkNode(t, s, item)
	}
}

func Example() {
	source := Parse("step.yaml", []byte("id: legs\nfor: ten\nfro: 10\n"), Limits{})
	step := source.Root.Map("a step")
	step.Text("id")
	step.OptNumber("for")
	step.Done()
	fmt.Println(source.Problems().Format(10))
	// Output:
	// step.yaml:2:6: found the text "ten", expected a number for "for"
	// step.yaml:3:1: unexpected key "fro" in a step; expected one of "for", "id"; did you mean "for"?
}

func TestAPlaceInAReplacedTextIsWhereItBegins(t *testing.T) {
	t.Parallel()
	s := Parse("f.yaml", []byte("a: two words\n"), Limits{})
	text := s.Root.Map("a thing").Text("a")
	text.Value = "many more words than there were"
	if got := text.AtOffset(20); got != text.Pos {
		t.Errorf("the place is %v; expected %v", got, text.Pos)
	}
}
