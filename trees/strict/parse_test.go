package strict

import (
	"strings"
	"testing"
)

func parse(src string) *Source { return Parse("f.yaml", []byte(src), Limits{}) }

// expectProblems compares everything found wrong with what should be, a line each.
func expectProblems(t *testing.T, s *Source, want ...string) {
	t.Helper()
	if got := s.Problems().Format(0); got != strings.Join(want, "\n") {
		t.Errorf("problems of %q:\n%s\nwant:\n%s", s.text, got, strings.Join(want, "\n"))
	}
}

func TestWhatYAMLBendsIsRefused(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, bad, good, want string }{
		{"empty file", "", "a: b", `1:1: the file is empty; expected one YAML document`},
		{"only remarks", "# nothing\n", "# something\na: b", `1:1: the file is empty; expected one YAML document`},
		{"second document", "a: b\n---\nc: d\n", "---\na: b\n", `2:1: a second document starts here; expected one document in a file`},
		{"tag", "when: !loaded\n", "when: not loaded\n", `1:7: found a tag; expected the value without it, or quotes around a text that begins with ! (write not for negation)`},
		{"tag with a value", "when: !x loaded\n", "when: '!x loaded'\n", `1:7: found a tag; expected the value without it, or quotes around a text that begins with ! (write not for negation)`},
		{"bare tag", "when: ! loaded\n", "when: '! loaded'\n", `1:7: found a tag; expected the value without it, or quotes around a text that begins with ! (write not for negation)`},
		{"tagged key", "!!str a: b\n", "a: b\n", `1:1: found a tag; expected the value without it, or quotes around a text that begins with ! (write not for negation)`},
		{"anchor", "a: &x b\n", "a: '&x b'\n", `1:4: found the anchor &x; expected the value without it, or quotes around a text that begins with &`},
		{"merge key", "<<: {a: b}\n", "a: b\n", `1:1: found the merge key <<; expected the keys themselves`},
		{"octal", "a: 010\n", "a: '010'\n", `1:4: found 010, which YAML reads as octal; expected a number without the leading 0, or quotes around a text`},
		{"leading zero", "a: 089\n", "a: 89\n", `1:4: found 089, which YAML reads as octal; expected a number without the leading 0, or quotes around a text`},
		{"hexadecimal", "a: 0x10\n", "a: 16\n", `1:4: found 0x10; expected a plain decimal number such as 1500 or 0.5, or quotes around a text`},
		{"underscores", "a: 1_500\n", "a: 1500\n", `1:4: found 1_500; expected a plain decimal number such as 1500 or 0.5, or quotes around a text`},
		{"bare fraction", "a: .5\n", "a: 0.5\n", `1:4: found .5; expected a plain decimal number such as 1500 or 0.5, or quotes around a text`},
		{"not a number", "a: .nan\n", "a: nan\n", `1:4: found .nan; expected a finite number, or quotes around a text`},
		{"infinity", "a: -.inf\n", "a: -1e9\n", `1:4: found -.inf; expected a finite number, or quotes around a text`},
		{"key without a value", "a: b\nc:\n", "a: b\nc: d\n", `2:1: "c" has no value; write one, or leave the key out`},
		{"null", "a: ~\n", "a: '~'\n", `1:1: "a" has no value; write one, or leave the key out`},
		{"empty item", "-\n- a\n", "- b\n- a\n", `1:2: nothing stands here; expected a value`},
		{"key twice", "a: 1\nb: 2\na: 3\n", "a: 1\nb: 2\nc: 3\n", `3:1: the key "a" comes twice; it is at line 1, column 1 already`},
		{"number as key", "5: a\n", "'5': a\n", `1:1: found the number 5 as a key; expected text, in quotes if need be`},
		{"truth as key", "true: a\n", "'true': a\n", `1:1: found true as a key; expected text, in quotes if need be`},
		{"nothing as key", "null: a\n", "'null': a\n", `1:1: found nothing as a key; expected text, in quotes if need be`},
		{"list as key", "[a]: b\n", "a: b\n", `1:1: found a list as a key; expected text, in quotes if need be`},
		{"mapping split by a comma", "x: {if: between(reading, 5, 10), go: x}\n", "x: {if: reading < 5, go: x}\n", `1:5: a comma inside {…} splits: write this mapping in block style`},
		{"mapping with a lost key", "x: {a: b, c}\n", "x: {a: b, c: d}\n", `1:11: a comma inside {…} splits: write this mapping in block style`},
		{"list split by a comma", "x: [between(a, 5), c]\n", "x: [between(a), c]\n", `1:5: a comma inside […] splits: write this list in block style`},
		{"not UTF-8", "a: \xff\n", "a: ü\n", `1:4: found a byte that is not UTF-8; expected text in UTF-8`},
		{"NUL", "a: b\x00\n", "a: b\n", `1:5: found a control character; expected text in UTF-8`},
		{"lone carriage return", "a: b\rc: d", "a: b\r\nc: d", `1:5: found a carriage return without a line feed; expected text in UTF-8`},
		{"line separator", "a: b\u2028c", "a: b c", `1:5: found a Unicode line separator; expected text in UTF-8`},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			expectProblems(t, parse(c.bad), "f.yaml:"+c.want)
			expectProblems(t, parse(c.good))
		})
	}
}

func TestBrokenYAMLIsPlacedOnItsLine(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ src, want string }{
		{"id: a\nwhy: it is: so\nb: 1\n", `2:1: not YAML: mapping values are not allowed in this context; a text with ": " in it needs quotes`},
		{"id: a\nsteps:\n  - id: x\n   foo: y\n  - id: b\n", `4:4: not YAML: did not find expected '-' indicator; check the indentation`},
		{"a: b\nc: \"unclosed\nd: e\n", `2:1: not YAML: found unexpected end of stream; a quote is not closed`},
		{"a: b\n\tc: d\n", `2:1: not YAML: found a tab character that violates indentation`},
		{"a: b\nc: @x\nd: e\n", "2:1: not YAML: found character that cannot start any token; indent with spaces, and quote a text that begins with @, ` or %"},
		{"a: 'x' y\nb: c\nd: e\n", `1:1: not YAML: did not find expected key; check the indentation and the quotes`},
		{"a: b\nfoo\nbar: c\n", `2:1: not YAML: could not find expected ':'; a key needs a colon and a space`},
		{"a: b\nc: *y\nd: e\n", `2:1: not YAML: unknown anchor 'y' referenced; a text that begins with * needs quotes`},
		{"a: b\n\n# remark\nc: }\n\n\nd: e\n", `4:1: not YAML: did not find expected node content`},
	} {
		expectProblems(t, parse(c.src), "f.yaml:"+c.want)
	}
}

func TestEveryProblemOfAFileIsReportedInOrder(t *testing.T) {
	t.Parallel()
	s := parse("b: 010\na: !x y\nb: ~\nc: [1, .nan]\n")
	s.Problem(Pos{"e.yaml", 9, 9}, "of an earlier file")
	s.Root.Problem("of the root")
	expectProblems(t, s,
		`e.yaml:9:9: of an earlier file`,
		`f.yaml:1:1: of the root`,
		`f.yaml:1:4: found 010, which YAML reads as octal; expected a number without the leading 0, or quotes around a text`,
		`f.yaml:2:4: found a tag; expected the value without it, or quotes around a text that begins with ! (write not for negation)`,
		`f.yaml:3:1: the key "b" comes twice; it is at line 1, column 1 already`,
		`f.yaml:4:8: found .nan; expected a finite number, or quotes around a text`)
	if got := s.Problems().Format(2); !strings.HasSuffix(got, "\n… and 4 more") || strings.Count(got, "\n") != 2 {
		t.Errorf("capped: %s", got)
	}
}

func TestColumnsCountCharacters(t *testing.T) {
	t.Parallel()
	expectProblems(t, parse("\uFEFF\"Ω°ü\": 010\n"), `f.yaml:1:8: found 010, which YAML reads as octal; expected a number without the leading 0, or quotes around a text`)
}

func TestAMessageStaysOnItsLine(t *testing.T) {
	t.Parallel()
	s := parse("\"a\\n\\eb\": c\n")
	s.Root.Map("a step").Done()
	expectProblems(t, s, `f.yaml:1:1: unexpected key "a\n\x1bb" in a step; expected none`)
	s.Problem(s.Root.Pos, "%s", "x\ny")
	if got := s.Problems()[1].Message; got != "x y" {
		t.Errorf("message %q", got)
	}
}
