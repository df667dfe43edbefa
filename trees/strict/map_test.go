package strict

import (
	"slices"
	"testing"
)

func TestReadersGiveValuesAndPlaces(t *testing.T) {
	t.Parallel()
	s := parse(`id: driven
minutes: 2.5
live: true
words: [tank cold, no hot water]
calls: {hot-water: true, heat: false}
steps:
  - a
  - 5
since: 2020-01-01
size: 10
mode: low impedance
`)
	m := s.Root.Map("a check")
	if id := m.Text("id"); id.Value != "driven" || id.Pos != (Pos{"f.yaml", 1, 5}) {
		t.Errorf("id %v", id)
	}
	if n := m.Number("minutes"); n.Value != 2.5 || n.Pos != (Pos{"f.yaml", 2, 10}) {
		t.Errorf("minutes %v", n)
	}
	if v, there := m.OptBool("live"); !v || !there {
		t.Error("live is not true")
	}
	if w := m.Words("words"); len(w) != 2 || w[1].Value != "no hot water" || w[1].Pos.Col != 20 {
		t.Errorf("words %v", w)
	}
	var calls []string
	for _, e := range m.Sub("calls").Entries() {
		calls = append(calls, e.Key.Value)
		if e.Value.Bool("a call") != (e.Key.Value == "hot-water") {
			t.Errorf("%s", e.Key)
		}
	}
	if !slices.Equal(calls, []string{"hot-water", "heat"}) {
		t.Errorf("calls %v out of the file's order", calls)
	}
	steps := m.List("steps")
	if steps[0].Text("a step").Value != "a" || steps[1].Number("a step").Value != 5 {
		t.Error("steps")
	}
	if m.Text("since").Value != "2020-01-01" || m.Scalar("size").Value != "10" {
		t.Error("a date or a number is not what it is written as")
	}
	if m.OneOf("mode", "low impedance", "high impedance").Value != "low impedance" {
		t.Error("mode")
	}
	m.Done()
	expectProblems(t, s)
}

func TestOptionalKeysMayBeMissing(t *testing.T) {
	t.Parallel()
	s := parse("a: b\n")
	m := s.Root.Map("a step")
	_, text := m.OptText("t")
	_, number := m.OptNumber("n")
	_, flag := m.OptBool("b")
	_, sub := m.OptSub("s")
	_, one := m.OptOneOf("o", "x")
	_, scalar := m.OptScalar("c")
	if text || number || flag || sub || one || scalar || m.OptWords("w") != nil || m.OptList("l") != nil || m.OptNode("x") != nil {
		t.Error("found what is not there")
	}
	m.Text("a")
	m.Done()
	expectProblems(t, s)
}

func TestAWrongKindSaysWhatWasFoundAndWhatBelongsThere(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		src  string
		read func(*Map)
		want string
	}{
		{"a: [b]\n", func(m *Map) { m.Text("a") }, `1:4: found a list, expected text for "a"`},
		{"a: 5\n", func(m *Map) { m.Text("a") }, `1:4: found the number 5, expected text for "a"; write "5" in quotes`},
		{"a: true\n", func(m *Map) { m.Text("a") }, `1:4: found true, expected text for "a"; write "true" in quotes`},
		{"a: {b: c}\n", func(m *Map) { m.Number("a") }, `1:4: found a mapping, expected a number for "a"`},
		{"a: '5'\n", func(m *Map) { m.Number("a") }, `1:4: found the text "5", expected a number for "a"; write it without quotes`},
		{"a: 5 V\n", func(m *Map) { m.Number("a") }, `1:4: found the text "5 V", expected a number for "a"`},
		{"a: yes\n", func(m *Map) { m.Bool("a") }, `1:4: found the text "yes", expected true or false for "a"`},
		{"a: 'true'\n", func(m *Map) { m.Bool("a") }, `1:4: found the text "true", expected true or false for "a"; write it without quotes`},
		{"a: b\n", func(m *Map) { m.List("a") }, `1:4: found the text "b", expected a list for "a"; write it as [b]`},
		{"a: b\n", func(m *Map) { m.Sub("a") }, `1:4: found the text "b", expected a mapping for "a"`},
		{"a: [b, [c]]\n", func(m *Map) { m.Words("a") }, `1:8: found a list, expected text for an item of "a"`},
		{"a: [b]\n", func(m *Map) { m.List("a")[0].Map("a step").Text("x") }, `1:5: found the text "b", expected a mapping (a step)`},
		{"a: []\n", func(m *Map) { m.Words("a") }, `1:4: the list for "a" is empty; write what belongs in it, or leave it out`},
		{"a: ' '\n", func(m *Map) { m.Text("a") }, `1:4: the text for "a" is empty; write one, or leave it out`},
		{"a: 1e999\n", func(m *Map) { m.Number("a") }, `1:4: found the text "1e999", expected a number for "a"`},
		{"a: medium\n", func(m *Map) { m.OneOf("a", "low", "high") }, `1:4: found "medium" for "a"; expected one of "high", "low"`},
		{"a: hihg\n", func(m *Map) { m.OneOf("a", "low", "high") }, `1:4: found "hihg" for "a"; expected one of "high", "low"; did you mean "high"?`},
	} {
		s := parse(c.src)
		c.read(s.Root.Map("a check"))
		expectProblems(t, s, "f.yaml:"+c.want)
	}
}

func TestAMissingKeyIsNamedWithItsLikelyMisspelling(t *testing.T) {
	t.Parallel()
	s := parse("steps:\n  - chek: a\n    why: b\n")
	m := s.Root.Map("a tree").List("steps")[0].Map("a step")
	m.Text("check")
	m.Text("go")
	m.Text("why")
	m.Done()
	expectProblems(t, s,
		`f.yaml:2:5: a step needs "check"; found "chek"`,
		`f.yaml:2:5: a step needs "go"`,
		`f.yaml:2:5: unexpected key "chek" in a step; expected one of "check", "go", "why"; did you mean "check"?`)
}

func TestAnUnexpectedKeyIsReported(t *testing.T) {
	t.Parallel()
	s := parse("a: b\nc: d\n")
	m := s.Root.Map("a step")
	m.Text("a")
	m.Done()
	expectProblems(t, s, `f.yaml:2:1: unexpected key "c" in a step; expected only "a"`)
}

func TestExactlyOneOfSeveralKeys(t *testing.T) {
	t.Parallel()
	s := parse("- {go: a}\n- {why: b}\n- {go: a, cause: b}\n")
	var got []string
	for _, n := range s.Root.List("branches") {
		m := n.Map("a branch")
		got = append(got, m.Which("go", "cause", "refer"))
	}
	if !slices.Equal(got, []string{"go", "", "go"}) {
		t.Errorf("which: %q", got)
	}
	expectProblems(t, s,
		`f.yaml:2:3: a branch needs one of "cause", "go", "refer"`,
		`f.yaml:3:11: a branch has "cause", "go"; expected only one of them`)
}

func TestWhatIsBrokenIsReportedOnce(t *testing.T) {
	t.Parallel()
	s := parse("a: .nan\nb: {c: !x y}\nd:\ne: [~]\n")
	m := s.Root.Map("a step")
	m.Number("a")
	m.Sub("b").Text("c")
	m.Text("d")
	m.Words("e")
	m.Sub("nothing").Text("x")
	m.Done()
	if got := len(s.Problems()); got != 5 { // four of the file, and the missing key
		t.Errorf("%d problems: %v", got, s.Problems())
	}
	var none *Node
	none.Map("a step").Text("x")
	none.Problem("nothing")
	if none.Text("x").Value != "" || none.List("x") != nil {
		t.Error("something read from nothing")
	}
}

func TestProblemsAtAKeyAndAtAValue(t *testing.T) {
	t.Parallel()
	s := parse("a: b\n")
	m := s.Root.Map("a step")
	m.KeyProblem("a", "at the key")
	m.KeyProblem("z", "at the mapping")
	m.Text("a").Problem("at the value")
	m.Problem("the whole")
	expectProblems(t, s, "f.yaml:1:1: at the key", "f.yaml:1:1: at the mapping", "f.yaml:1:1: the whole", "f.yaml:1:4: at the value")
}
