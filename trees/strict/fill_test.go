package strict

import (
	"strings"
	"testing"
)

func filledWith(t *testing.T, text string, values map[string]string) (*Node, *Source) {
	t.Helper()
	source := Parse("a.yaml", []byte(text), Limits{})
	if source.Root == nil || source.Err() != nil {
		t.Fatal(source.Err())
	}
	filled := source.Root.Fill(func(x Text) string {
		if v, ok := values[x.Value]; ok {
			return v
		}
		return x.Value
	})
	return filled, source
}

func TestFilledTextBecomesWhatItReadsAs(t *testing.T) {
	t.Parallel()
	n, _ := filledWith(t, "a: $n\nb: \"$n\"\nc: $t\n$k: [x, $n]\n", map[string]string{"$n": "6.5", "$t": "true", "$k": "d"})
	m := n.Map("a thing")
	if v := m.Number("a").Value; v != 6.5 {
		t.Errorf("a is %v", v)
	}
	if v := m.Text("b").Value; v != "6.5" {
		t.Errorf("b, in quotes, is %q", v)
	}
	if !m.Bool("c") {
		t.Error("c is not true")
	}
	if l := m.List("d"); len(l) != 2 || l[1].Number("it").Value != 6.5 {
		t.Errorf("d is %v", l)
	}
	m.Done()
	if err := n.Source().Err(); err != nil {
		t.Error(err)
	}
}

func TestProblemsOfACopyStayWithTheCopy(t *testing.T) {
	t.Parallel()
	n, source := filledWith(t, "a: x\nb: $v\n", map[string]string{"$v": "six"})
	m := n.Map("a thing")
	m.Text("a")
	m.Number("b")
	want := `a.yaml:2:4: found the text "six", expected a number for "b"`
	if err := n.Source().Err(); err == nil || err.Error() != want {
		t.Errorf("the copy reports %v; expected %s", err, want)
	}
	if err := source.Err(); err != nil {
		t.Errorf("the original reports %v", err)
	}
}

func TestKeysThatMeetAreReported(t *testing.T) {
	t.Parallel()
	n, _ := filledWith(t, "$a: 1\n$b: 2\n", map[string]string{"$a": "x", "$b": "x"})
	if err := n.Source().Err(); err == nil || !strings.Contains(err.Error(), `2:1: the key "x" comes twice`) {
		t.Errorf("reported: %v", err)
	}
}

func TestFillingNothingGivesNothing(t *testing.T) {
	t.Parallel()
	if n := (*Node)(nil).Fill(func(x Text) string { return x.Value }); n != nil {
		t.Errorf("%v", n)
	}
}
