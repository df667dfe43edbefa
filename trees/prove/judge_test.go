package prove

import (
	"math"
	"slices"
	"testing"
)

func TestAVerdictNeedsTheWholeIntervalInOneBranch(t *testing.T) {
	t.Parallel()
	p, _ := mustTable(t, single("dead(ln)", "leaky(ln)", "sound(ln)", "high(ln)"))
	nan, below, above := math.NaN(), math.Nextafter(5, 0), math.Nextafter(253, ol)
	for _, c := range []struct {
		lo, hi float64
		want   []int
	}{
		{0, 0, []int{0}},
		{0, below, []int{0}},
		{0, 5, []int{0, 1}},
		{5, 5, []int{1}},
		{below, 5, []int{0, 1}},
		{5, math.Nextafter(50, 0), []int{1}},
		{40, 60, []int{Gap, 1}},
		{60, 60, []int{Gap}},
		{216.2, 253, []int{2}},
		{253, 253, []int{2}},
		{253, above, []int{2, 3}},
		{above, above, []int{3}},
		{math.Nextafter(216.2, 0), 216.2, []int{Gap, 2}},
		{20e6, ol, []int{3}},
		{ol, ol, []int{3}},
		{0, ol, []int{Gap, 0, 1, 2, 3}},
		{-1, -0.5, []int{Gap}},
		{-1, 1, []int{Gap, 0}},
		{nan, 5, []int{Gap, 0, 1, 2, 3}},
		{5, nan, []int{Gap, 0, 1, 2, 3}},
		{7, 6, []int{Gap, 0, 1, 2, 3}},
	} {
		if got := p.Judge([]Interval{{c.lo, c.hi}}); !slices.Equal(got, c.want) {
			t.Errorf("%v to %v: %v, want %v", c.lo, c.hi, got, c.want)
		}
	}
	if got := p.Judge(nil); !slices.Equal(got, []int{Gap, 0, 1, 2, 3}) {
		t.Errorf("not read: %v", got)
	}
}

func TestReadingsBeyondAFiniteRangeBelongToNobody(t *testing.T) {
	t.Parallel()
	s := Set{Variables: []Variable{{Name: "t", Min: -40, Max: 120}}}.with([]string{"t < 0", "t >= 0"})
	p, _ := mustTable(t, s)
	for _, c := range []struct {
		lo, hi float64
		want   []int
	}{{-40, -40, []int{0}}, {-41, -40, []int{Gap, 0}}, {120, 120, []int{1}}, {119, 121, []int{Gap, 1}}, {ol, ol, []int{Gap}}, {-ol, -ol, []int{Gap}}, {math.Copysign(0, -1), 0, []int{1}}} {
		if got := p.Judge([]Interval{{c.lo, c.hi}}); !slices.Equal(got, c.want) {
			t.Errorf("%v to %v: %v, want %v", c.lo, c.hi, got, c.want)
		}
	}
}

func TestAReadingNotTakenYetMayBeAnything(t *testing.T) {
	t.Parallel()
	p, _ := mustTable(t, double("sound(ln)", "dead(ln) and sound(le)", "dead(ln)", "else"))
	for _, c := range []struct {
		box  []Interval
		want []int
	}{
		{[]Interval{{230, 231}}, []int{0}},
		{[]Interval{{0, 1}}, []int{1, 2}},
		{[]Interval{{0, 1}, {229, 231}}, []int{1}},
		{[]Interval{{0, 1}, {252, 254}}, []int{1, 2}},
		{[]Interval{{0, 6}, {229, 231}}, []int{1, 3}},
		{nil, []int{0, 1, 2, 3}},
	} {
		if got := p.Judge(c.box); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.box, got, c.want)
		}
	}
}

func TestFactsNarrowAVerdict(t *testing.T) {
	t.Parallel()
	p, _ := mustTable(t, single("moving(ln)", "not moving(ln) and ln < 100", "not moving(ln) and ln >= 100"))
	at := []Interval{{50, 50}}
	for _, c := range []struct {
		facts []Fact
		want  []int
	}{{nil, []int{0, 1}}, {[]Fact{{"moving", "ln", true}}, []int{0}}, {[]Fact{{"moving", "ln", false}}, []int{1}}, {[]Fact{{"moving", "le", false}}, []int{0, 1}}} {
		if got := p.Judge(at, c.facts...); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.facts, got, c.want)
		}
	}
}

func TestUndecidedConditionsAreStillJudged(t *testing.T) {
	t.Parallel()
	p, undecided := mustTable(t, double("ln > le + 10", "dead(ln)", "else"))
	if len(undecided) != 1 || p.Decided(0) || !p.Decided(1) || p.Owned(0, 0) != nil {
		t.Errorf("undecided %v", undecided)
	}
	for _, c := range []struct {
		box  []Interval
		want []int
	}{
		{[]Interval{{230, 231}, {100, 101}}, []int{0}},
		{[]Interval{{230, 231}, {220, 222}}, []int{0, 2}},
		{[]Interval{{0, 1}, {100, 101}}, []int{1}},
		{[]Interval{{100, 101}, {230, 231}}, []int{2}},
		{[]Interval{{0, 1}, {230, 231}}, []int{1}},
	} {
		if got := p.Judge(c.box); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.box, got, c.want)
		}
	}
	p, _ = mustTable(t, single("ln * ln < 25", "ln >= 5", "else"))
	for x, want := range map[float64][]int{1: {0}, 4.9: {0}, 6: {1}, ol: {0, 1}} {
		if got := p.Judge([]Interval{{x, x}}); !slices.Equal(got, want) {
			t.Errorf("%v: %v, want %v", x, got, want)
		}
	}
}

func TestBoundsOfUndecidedConditions(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		condition string
		ln, le    Interval
		want      tri
	}{
		{"ln < le", Interval{1, 2}, Interval{3, 4}, yes},
		{"ln < le", Interval{1, 3}, Interval{3, 4}, either},
		{"ln < le", Interval{3, 3}, Interval{3, 3}, no},
		{"ln < le", Interval{4, 5}, Interval{3, 4}, no},
		{"ln <= le", Interval{1, 3}, Interval{3, 4}, yes},
		{"ln <= le", Interval{3, 4}, Interval{3, 3}, either},
		{"ln <= le", Interval{4, 5}, Interval{3, 3}, no},
		{"ln > le", Interval{3, 4}, Interval{1, 3}, either},
		{"ln > le", Interval{3.5, 4}, Interval{1, 3}, yes},
		{"ln > le", Interval{1, 3}, Interval{3, 4}, no},
		{"ln >= le", Interval{3, 4}, Interval{1, 3}, yes},
		{"ln >= le", Interval{1, 3}, Interval{3, 4}, either},
		{"ln >= le", Interval{1, 2}, Interval{3, 4}, no},
		{"ln == le", Interval{3, 3}, Interval{3, 3}, yes},
		{"ln == le", Interval{1, 3}, Interval{3, 4}, either},
		{"ln == le", Interval{1, 2}, Interval{3, 4}, no},
		{"ln != le", Interval{1, 2}, Interval{3, 4}, yes},
		{"ln != le", Interval{1, 3}, Interval{3, 4}, either},
		{"ln != le", Interval{3, 3}, Interval{3, 3}, no},
		{"ln - le < 0", Interval{ol, ol}, Interval{ol, ol}, either}, // no number
		{"ln - le < 0", Interval{1, 2}, Interval{ol, ol}, yes},
		{"ln * le <= 1/0", Interval{0, 1}, Interval{5, ol}, either}, // 0 times OL is no number
		{"ln / le < 5", Interval{1, 2}, Interval{1, 2}, yes},
		{"ln / le < 5", Interval{1, 2}, Interval{0, 2}, either},
		{"ln / (le - 1) < 5", Interval{1, 2}, Interval{0, 2}, either},
		{"ln / le < 5", Interval{1, 2}, Interval{5, ol}, either},
		{"abs(ln - le) < 5", Interval{1, 2}, Interval{3, 4}, yes},
		{"abs(ln - le) > 5", Interval{10, 20}, Interval{3, 4}, yes},
		{"abs(ln - le) < 5", Interval{1, 9}, Interval{3, 4}, either},
		{"max(ln, le) > 5", Interval{1, 2}, Interval{6, 7}, yes},
		{"-ln > le - 20", Interval{1, 2}, Interval{3, 4}, yes},
		{"min(ln, le) > mains.low", Interval{230, 231}, Interval{0, 1}, no},
		{"ln < le and dead(ln)", Interval{1, 2}, Interval{3, 4}, yes},
		{"ln < le and dead(ln)", Interval{1, 6}, Interval{30, 40}, either},
		{"ln > le or leaky(ln)", Interval{1, 60}, Interval{100, 100}, either},
		{"ln > le or sound(ln)", Interval{1, 60}, Interval{100, 100}, no},
		{"not (ln < le) or moving(ln)", Interval{1, 2}, Interval{3, 4}, either},
		{"ln < le and true", Interval{1, 2}, Interval{3, 4}, yes},
	} {
		s := double(c.condition, "else")
		p, _ := mustTable(t, s)
		if got := (box{s, []Interval{c.ln, c.le}, nil}).judge(p.formulas[0]); got != c.want {
			t.Errorf("%s with ln %v and le %v: %v, want %v", c.condition, c.ln, c.le, got, c.want)
		}
	}
}

// The condition is proved on an axis that lacks its threshold, as if the search for thresholds were at fault.
func TestAMissingThresholdIsNoticed(t *testing.T) {
	t.Parallel()
	s := single("ln < 0.001", "else")
	w := &work{prover: New(), set: s, vocabulary: s.Vocabulary(), cuts: make([][]float64, 1)}
	w.compile()
	w.cuts[0] = nil
	if err := w.grid(); err != nil {
		t.Fatal(err)
	}
	if len(w.undecided) != 1 || w.undecided[0].Reason != "the condition changes near 0, where the proof expects no change" || w.partition.Decided(0) {
		t.Errorf("undecided %v", w.undecided)
	}
}
