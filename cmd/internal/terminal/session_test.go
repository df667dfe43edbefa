package terminal

import (
	"math"
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/walk"
	"faultwalk/measurements"
	"faultwalk/trees/prove"
)

// formOf answers one form from typed lines.
func formOf(t *testing.T, typed string, fields ...walk.Field) (walk.Answer, string) {
	t.Helper()
	var got walk.Answer
	shown := session(t, typed, func(f *Face) {
		var err error
		if got, err = (&Session{Face: f}).ask(&walk.Ask{Kind: walk.Fill, Fields: fields}); err != nil {
			t.Errorf("%q: %v", typed, err)
		}
	})
	return got, shown
}

var proof = []walk.Field{{Name: "before", Text: "Tester proved before?", YesNo: true, Halts: true}, {Name: "a", Text: "L to N", Number: true, Halts: true},
	{Name: "b", Text: "L to E", Number: true, Halts: true}, {Name: "after", Text: "Tester proved after?", YesNo: true, Halts: true}}

// Nobody reads on in a box that is not dead, nor with a tester that failed.
func TestFormEndsAtTheFirstVoltageAndAtATesterThatFailed(t *testing.T) {
	t.Parallel()
	for typed, want := range map[string][]string{
		"no\n":              {"no"},
		"yes\n231\n":        {"yes", "231"},
		"yes\n0.3 118\n":    {"yes", "0.3", "118"},
		"yes\n76 0\n":       {"yes", "76"},
		"yes\n4.9 0\nno\n":  {"yes", "4.9", "0", "no"},
		"yes\n0\n0\nyes\n":  {"yes", "0", "0", "yes"},
		"yes\n0\n5.1 V\n":   {"yes", "0", "5.1 V"},
		"perhaps\nno\n":     {"no"},
		"yes\nvolts\n118\n": {"yes", "118"},
	} {
		if got, shown := formOf(t, typed, proof...); !slices.Equal(got.Fields, want) {
			t.Errorf("%q gives %q, expected %q\n%s", typed, got.Fields, want, shown)
		}
	}
}

// readingOf is a question with three rows below 5 V, to 216.2 V and above.
func readingOf() *walk.Ask {
	return &walk.Ask{Kind: walk.Measure, Reading: &walk.ReadingAsk{Ranges: []walk.Range{
		{Words: "below 5 V", Meaning: "nothing arrives", Owned: prove.Range{Lo: 0, Hi: 5, LoIn: true}},
		{Words: "5 V to 216.2 V", Meaning: "weak", Owned: prove.Range{Lo: 5, Hi: 216.2, LoIn: true}},
		{Words: "216.2 V or more", Meaning: "sound", Owned: prove.Range{Lo: 216.2, Hi: math.Inf(1), LoIn: true}}}}}
}

func TestRowIsMarkedWhereTheReadingFellBySignAndInWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		within measurements.Interval
		want   []int
	}{
		{measurements.Interval{Lo: 0.2, Hi: 0.4}, []int{0}},
		{measurements.Interval{Lo: 4.9, Hi: 5.1}, []int{0, 1}},
		{measurements.Interval{Lo: 5, Hi: 5}, []int{1}},
		{measurements.Interval{Lo: 228, Hi: 234}, []int{2}},
	} {
		for i, row := range drawn(readingOf(), &walk.Fallen{Words: "this", Within: c.within}) {
			marked := strings.HasPrefix(row, " > ") && strings.HasSuffix(row, "(this falls here)")
			if marked != slices.Contains(c.want, i) || strings.Contains(row, "falls here") != marked {
				t.Errorf("%v: row %d is %q", c.within, i, row)
			}
		}
	}
	for _, row := range drawn(readingOf(), nil) {
		if strings.Contains(row, ">") || strings.Contains(row, "falls here") {
			t.Errorf("before the reading: %q", row)
		}
	}
}

func TestWhatToDoComesBeforeTheCautionsWhereItIsUrgent(t *testing.T) {
	t.Parallel()
	for _, urgent := range []bool{true, false} {
		shown := session(t, "", func(f *Face) {
			(&Session{Face: f}).show(&walk.Ask{Title: "Stop: sparks", Body: []string{"Keep away."}, Urgent: urgent,
				Cautions: []walk.Caution{{ID: "new", Words: "Mind the step."}, {ID: "told-before", Again: true}}})
		})
		if first := strings.Index(shown, "Keep away.") < strings.Index(shown, "! Mind the step."); first != urgent || !strings.Contains(shown, "As before: told before.") {
			t.Errorf("urgent %v:\n%s", urgent, shown)
		}
	}
}
