package prove

import (
	"math"
	"strings"
	"testing"
)

var ol = math.Inf(1)

// mains is the low-impedance scale of the mains at 216.2 to 253 V (230 V −6 % +10 %, EN 50160 as used in Great
// Britain); the edges below are common practice, no source.
func mains() []Band {
	return []Band{{"dead", 5, false}, {"leaky", 50, false}, {"series", 150, false}, {"poor", 207, false},
		{"weak", 216.2, false}, {"sound", 253, true}, {"high", ol, false}}
}

func volts(name string) Variable {
	return Variable{Name: name, Unit: "V", Min: 0, Max: ol, Bands: mains()}
}

// single makes a set over one mains reading; the word else alone is the else.
func single(conditions ...string) Set {
	s := Set{Variables: []Variable{volts("ln")}, Facts: []string{"moving"},
		Constants: map[string]float64{"mains.low": 216.2, "mains.high": 253, "expected.low": 19.2}}
	return s.with(conditions)
}

func (s Set) with(conditions []string) Set {
	for _, c := range conditions {
		if c == "else" {
			s.Branches = append(s.Branches, Branch{Else: true})
		} else {
			s.Branches = append(s.Branches, Branch{If: c})
		}
	}
	return s
}

func mustTable(t testing.TB, s Set) (*Partition, []Undecided) {
	t.Helper()
	p, undecided, err := New().Table(s)
	if err != nil {
		t.Fatal(err)
	}
	return p, undecided
}

func found(p *Partition) string {
	var lines []string
	for _, f := range p.Findings() {
		lines = append(lines, string(f.Kind)+": "+f.String())
	}
	return strings.Join(lines, "\n")
}

func TestWhatIsWrongIsSaidWithRangesAndWitness(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		conditions []string
		want       string
	}{
		{[]string{"ln < 10", "10 <= ln < 207", "ln >= 207"}, ""},
		{[]string{"dead(ln)", "not dead(ln)"}, ""},
		{[]string{"abs(ln - 230) <= 23", "ln < 207", "ln > 253"}, ""},
		{[]string{"ln == 5", "ln != 5"}, ""},
		{[]string{"between(ln, mains.low, mains.high)", "ln < mains.low or ln > mains.high"}, ""},
		{[]string{"dead(ln)", "leaky(ln) or series(ln) or poor(ln)", "sound(ln) or high(ln)"},
			"gap: no branch owns ln from 207 V up to but not including 216.2 V; for example ln = 210 V"},
		{[]string{"ln < 10", "ln > 10"}, "gap: no branch owns ln exactly 10 V; for example ln = 10 V"},
		{[]string{"ln < 10", "10 <= ln <= 253"}, "gap: no branch owns ln above 253 V, OL included; for example ln = 400 V"},
		{[]string{"ln < 1/0"}, "gap: no branch owns ln OL; for example ln = OL"},
		{[]string{"ln > 10"}, "gap: no branch owns ln up to 10 V; for example ln = 5 V"},
		{[]string{"ln >= 10"}, "gap: no branch owns ln below 10 V; for example ln = 5 V"},
		{[]string{"ln < 10", "ln > 20"}, "gap: no branch owns ln from 10 V to 20 V; for example ln = 15 V"},
		{[]string{"ln <= 10", "ln >= 20"}, "gap: no branch owns ln above 10 V and below 20 V; for example ln = 15 V"},
		{[]string{"ln <= 10", "ln > 20"}, "gap: no branch owns ln above 10 V up to 20 V; for example ln = 15 V"},
		{[]string{"ln <= 10", "ln >= 10"}, "overlap: branches 1 and 2 both own ln exactly 10 V; for example ln = 10 V"},
		{[]string{"ln < 20", "ln >= 10"}, "overlap: branches 1 and 2 both own ln from 10 V up to but not including 20 V; for example ln = 15 V"},
		{[]string{"true", "ln < 30", "ln < 20", "ln > 1e6"}, "overlap: branches 1, 2 and 3 all own ln below 20 V; for example ln = 10 V\n" +
			"overlap: branches 1 and 4 both own ln above 1000000 V, OL included; for example ln = 2000000 V"},
		{[]string{"ln >= 0", "ln < 0"}, "dead: no reading leads to branch 2"},
		{[]string{"ln >= 10", "ln < 10", "ln > 20 and ln < 20"}, "dead: no reading leads to branch 3"},
		{[]string{"ln < 5", "ln >= 5", "else"}, "idle else: the else (branch 3) owns nothing; the branches before it own every reading"},
		{[]string{"ln < 5", "ln > 7", "else"}, ""},
		{[]string{"ln < 5 and moving(ln)", "ln >= 5"}, "gap: no branch owns ln below 5 V and not moving(ln); for example ln = 3 V and not moving(ln)"},
		{[]string{"moving(ln)", "not moving(ln) and ln < 5", "ln >= 5"},
			"overlap: branches 1 and 3 both own ln from 5 V, OL included and moving(ln); for example ln = 10 V and moving(ln)"},
		{[]string{"ln * ln < 5"}, "no else: the last branch must be else"},
	} {
		p, _ := mustTable(t, single(c.conditions...))
		if got := found(p); got != c.want {
			t.Errorf("%q:\n%s\nwant:\n%s", c.conditions, got, c.want)
		}
	}
}

func TestWitnessesAreReal(t *testing.T) {
	t.Parallel()
	p, _ := mustTable(t, single("ln <= 3", "3 <= ln < 4", "ln > 100 and moving(ln)"))
	for _, f := range p.Findings() {
		at := Interval{f.Witness[0], f.Witness[0]}
		got := p.Judge([]Interval{at}, f.Facts...)
		if f.Kind == Uncovered && (len(got) != 1 || got[0] != Gap) || f.Kind == Overlap && len(got) < 2 {
			t.Errorf("%s: judged %v", f, got)
		}
		if !f.Ranges[0].Contains(f.Witness[0]) {
			t.Errorf("%s: witness outside %v", f, f.Ranges[0])
		}
	}
}

func TestTheFirstTrueBranchOfSeveralReadingsWins(t *testing.T) {
	t.Parallel()
	s := Set{Variables: []Variable{volts("ln"), volts("le")}, FirstTrue: true}
	for _, c := range []struct {
		conditions []string
		want       string
	}{
		{[]string{"dead(ln) and sound(le)", "dead(ln)", "sound(ln)", "else"}, ""},
		{[]string{"dead(ln)", "dead(ln) and sound(le)", "else"}, "dead: no reading leads to branch 2"},
		{[]string{"ln < 5", "ln >= 5", "else"}, "idle else: the else (branch 3) owns nothing; the branches before it own every reading"},
		{[]string{"dead(ln)", "not dead(ln) and not (poor(le) and sound(ln))"},
			"gap: no branch owns ln from 216.2 V to 253 V and le from 150 V up to but not including 207 V; for example ln = 230 V and le = 200 V\n" +
				"no else: the last branch must be else"},
		{[]string{"ln < le", "dead(ln)", "else"}, ""},
		{[]string{"dead(ln)", "ln < le", "dead(ln) and dead(le)", "else"}, "dead: no reading leads to branch 3"},
	} {
		p, _ := mustTable(t, s.with(c.conditions))
		if got := found(p); got != c.want {
			t.Errorf("%q:\n%s\nwant:\n%s", c.conditions, got, c.want)
		}
	}
}

func TestOwnedRangesJoinAcrossCells(t *testing.T) {
	t.Parallel()
	p, _ := mustTable(t, single("dead(ln) or high(ln)", "leaky(ln) or series(ln)", "else"))
	for branch, want := range [][]Range{
		{{0, 5, true, false}, {253, ol, false, true}},
		{{5, 150, true, false}},
		{{150, 253, true, true}},
	} {
		got := p.Owned(branch, 0)
		if len(got) != len(want) {
			t.Fatalf("branch %d owns %v", branch, got)
		}
		for i := range want {
			if got[i] != want[i] {
				t.Errorf("branch %d owns %v, want %v", branch, got[i], want[i])
			}
		}
	}
	if !p.ElseNeedless() {
		t.Error("the else could have been written as a range")
	}
}

func TestOwnedRangesFollowTheFacts(t *testing.T) {
	t.Parallel()
	p, _ := mustTable(t, single("moving(ln)", "not moving(ln) and ln < 5", "not moving(ln) and ln >= 5"))
	still := Fact{"moving", "ln", false}
	if got := p.Owned(1, 0, still); len(got) != 1 || got[0] != (Range{0, 5, true, false}) {
		t.Errorf("still: %v", got)
	}
	if got := p.Owned(0, 0, still); got != nil {
		t.Errorf("still, but moving owns %v", got)
	}
}

func TestRoundingIsProvedAsItRuns(t *testing.T) {
	t.Parallel()
	// 23/1.1 is 20.909…; whether 1.1 times that is above 23 is a matter of the last bit, and the two sides agree.
	p, _ := mustTable(t, single("ln * 1.1 <= 23", "ln * 1.1 > 23"))
	if got := found(p); got != "" {
		t.Error(got)
	}
	edge := p.Owned(1, 0)[0].Lo
	below := math.Nextafter(edge, 0)
	if edge*1.1 <= 23 || below*1.1 > 23 {
		t.Errorf("edge %v", edge)
	}
	// 0.1 + 0.2 is not 0.3, and so 0.1 above 0.2 is not the same as above 0.3.
	p, _ = mustTable(t, single("ln <= 0.3", "ln > 0.1 + 0.2"))
	if got := p.Findings(); len(got) != 1 || got[0].Kind != Uncovered || got[0].Witness[0] != 0.1+float64(0.2) && got[0].Witness[0] != 0.30000000000000004 {
		t.Errorf("findings %v", got)
	}
}

func TestReadingsThatRoundTogetherStayTogether(t *testing.T) {
	t.Parallel()
	p, undecided := mustTable(t, single("abs(ln + 1000000 - 1000230) == 0", "abs(ln + 1000000 - 1000230) != 0"))
	if got := found(p); got != "" || undecided != nil {
		t.Fatal(got, undecided)
	}
	r := p.Owned(0, 0)[0]
	lo, hi := cell{Range: r}.ends()
	if lo >= 230 || hi <= 230 {
		t.Fatalf("owns %v", r)
	}
	for x, same := range map[float64]bool{lo: true, hi: true, math.Nextafter(lo, 0): false, math.Nextafter(hi, ol): false} {
		if more := x + 1000000; (more-1000230 == 0) != same {
			t.Errorf("%v: the edge is not here", x)
		}
	}
}

func TestRangesAreSaidInWords(t *testing.T) {
	t.Parallel()
	v := Variable{Name: "r", Unit: "Ω", Min: 0, Max: ol}
	closed := Variable{Name: "t", Min: -40, Max: 120}
	for _, c := range []struct {
		v    Variable
		r    Range
		want string
	}{
		{v, Range{0, ol, true, true}, "any r"},
		{v, Range{0, ol, true, false}, "r, any but OL"},
		{v, Range{ol, ol, true, true}, "r OL"},
		{v, Range{5, ol, false, true}, "r above 5 Ω, OL included"},
		{v, Range{5, ol, true, false}, "r from 5 Ω, OL not included"},
		{v, Range{2e10, 2e10, true, true}, "r exactly 2e+10 Ω"},
		{v, Range{0, 0.00001, true, true}, "r up to 1e-05 Ω"},
		{closed, Range{-40, 120, true, true}, "any t"},
		{closed, Range{50, 120, true, true}, "t from 50"},
		{closed, Range{-40, -5, true, false}, "t below -5"},
		{closed, Range{-40, 120, true, false}, "t below 120"},
		{closed, Range{-5, 0, false, true}, "t above -5 up to 0"},
	} {
		if got := c.v.Describe(c.r); got != c.want {
			t.Errorf("%v: %q, want %q", c.r, got, c.want)
		}
	}
}

func TestExamplesAreShortAndInside(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		r    Range
		want float64
	}{
		{Range{207, 216.2, true, false}, 210},
		{Range{0, 5, true, false}, 3},
		{Range{253, ol, false, false}, 400},
		{Range{-1, 1, false, false}, 0},
		{Range{0.0002, 0.0003, false, false}, 0.0003 - 0.00005},
		{Range{5, 5, true, true}, 5},
		{Range{ol, ol, true, true}, ol},
	} {
		if got := c.r.example(); math.Abs(got-c.want) > 1e-12 && got != c.want {
			t.Errorf("%v: %v, want %v", c.r, got, c.want)
		}
	}
	for _, lo := range []float64{0, 1, 253, 1e-300, math.MaxFloat64 / 4, -17.3, 0.1} {
		hi := lo
		for range 60 {
			if r := (Range{lo, hi, true, true}); !r.Contains(r.example()) {
				t.Fatalf("%v: example %v", r, r.example())
			}
			if r := (Range{Lo: lo, Hi: math.Nextafter(math.Nextafter(hi, ol), ol)}); !r.Contains(r.example()) {
				t.Fatalf("%v: example %v", r, r.example())
			}
			hi = math.Nextafter(hi, ol) + (hi-lo)*2
		}
	}
}
