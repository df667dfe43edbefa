package prove

import (
	"slices"
	"strings"
	"testing"
)

func FuzzCompile(f *testing.F) {
	for _, source := range []string{"ln < 5", "5 < ln < 10 and not dead(le)", "between(ln, mains.low, 3e2)", "abs(ln - 230) <= 23 or moving(ln)", "max(ln, -5) != 1/0",
		"ln + le > 5", "ln in 1..5", "let x = 1; x < ln", "(((ln < 1)))", "ln?.x", "filter([1], # > 0)", "ln < 5 ? true : false", "not not true", "sound(ln) | x()",
		"'a' + `b`", "ln < 0x1F", "/* */ true // x", "true and\n le >= 1e308*10", "ln*0 == 0", "mains.low.x < 1", "[ln][0] < 1", "ln ?? 5 < 6", strings.Repeat("(", 40)} {
		f.Add(source)
	}
	f.Fuzz(func(t *testing.T, source string) {
		prover, s := New(), double(source, "else")
		c, err := prover.Compile(source, s.Vocabulary())
		if err != nil {
			checkErrors(t, source, err.(Errors))
			return
		}
		for _, u := range c.Undecided() {
			checkPlace(t, source, u.Line, u.Column)
		}
		p, _, err := prover.Table(s)
		if err != nil {
			return // too many parts
		}
		p.Findings()
		o := newOracle(t, s)
		for _, x := range []float64{0, 4.999, 5, 230, 253, ol} {
			point, facts := []float64{x, 230}, []Fact{{"moving", "ln", x > 4}, {"moving", "le", false}}
			taken := first(o.at(t, s, point, facts), s)
			if got := p.Judge([]Interval{{x, x}, {230, 230}}, facts...); !slices.Contains(got, taken) {
				t.Fatalf("%q at %v leads to %d, judged %v", source, point, taken, got)
			}
		}
	})
}

func checkErrors(t *testing.T, source string, errs Errors) {
	for _, e := range errs {
		checkPlace(t, source, e.Line, e.Column)
		if strings.ContainsAny(e.Message, "\n\r") || e.Message == "" {
			t.Fatalf("%q: message %q", source, e.Message)
		}
	}
}

// checkPlace holds for every place in a condition; one beyond the end of a line is where something is missing.
func checkPlace(t *testing.T, source string, line, column int) {
	lines := strings.Split(source, "\n")
	if line < 1 || line > len(lines) || column < 0 || column > len([]rune(lines[line-1]))+1 {
		t.Fatalf("%q: %d:%d is outside", source, line, column)
	}
}
