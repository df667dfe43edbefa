package prove

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// loan is the published decision table and what is known about it; the source is in the file.
type loan struct {
	Rules     map[string]struct{ Income, Size string }
	Domain    struct{ Income, Size string }
	Published struct {
		Overlap struct {
			Rules        []string
			Income, Size string
		}
	}
	Recomputed struct {
		Total  float64             `yaml:"total_area"`
		Gap    float64             `yaml:"gap_area"`
		Shared float64             `yaml:"overlap_area"`
		Slabs  [][2]string         `yaml:"gaps_by_open_income_slab"`
		Points map[string][]string `yaml:"boundary_points"`
	}
}

func readLoan(t *testing.T) loan {
	t.Helper()
	src, err := os.ReadFile("../../testdata/reference/algorithms/08_dmn_loan_grade.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var l loan
	if err := yaml.Unmarshal(src, &l); err != nil {
		t.Fatal(err)
	}
	return l
}

// published reads the interval notation of the paper: [0..250) .
func published(t *testing.T, text string) Range {
	t.Helper()
	lo, hi, ok := strings.Cut(text[1:len(text)-1], "..")
	a, err := strconv.ParseFloat(lo, 64)
	b, err2 := strconv.ParseFloat(hi, 64)
	if !ok || err != nil || err2 != nil {
		t.Fatal(text)
	}
	return Range{a, b, text[0] == '[', text[len(text)-1] == ']'}
}

func (l loan) table(t *testing.T) *Partition {
	income, size := published(t, l.Domain.Income), published(t, l.Domain.Size)
	s := Set{Variables: []Variable{{Name: "income", Min: income.Lo, Max: income.Hi}, {Name: "size", Min: size.Lo, Max: size.Hi}}}
	for _, name := range []string{"A", "B", "C", "D"} {
		i, z := published(t, l.Rules[name].Income), published(t, l.Rules[name].Size)
		s.Branches = append(s.Branches, Branch{If: fmt.Sprintf("between(income, %v, %v) and between(size, %v, %v)", i.Lo, i.Hi, z.Lo, z.Hi)})
	}
	p, _ := mustTable(t, s)
	return p
}

func area(f Finding) float64 {
	return (f.Ranges[0].Hi - f.Ranges[0].Lo) * (f.Ranges[1].Hi - f.Ranges[1].Lo)
}

func TestAPublishedDecisionTable(t *testing.T) {
	t.Parallel()
	l := readLoan(t)
	p := l.table(t)
	var gap, shared float64
	for _, f := range p.Findings() {
		switch f.Kind {
		case Uncovered:
			gap += area(f)
		case Overlap:
			shared += area(f)
			want := []Range{published(t, l.Published.Overlap.Income), published(t, l.Published.Overlap.Size)}
			if !slices.Equal(f.Branches, []int{0, 2}) || !slices.Equal(f.Ranges, want) {
				t.Errorf("overlap of %v at %v", f.Branches, f.Ranges)
			}
		default:
			t.Errorf("unexpected: %s", f)
		}
	}
	if gap != l.Recomputed.Gap || shared != l.Recomputed.Shared {
		t.Errorf("gaps %v, overlaps %v; want %v and %v", gap, shared, l.Recomputed.Gap, l.Recomputed.Shared)
	}
	if got := p.Judge([]Interval{{500, 500}, {4230, 4230}}); !slices.Equal(got, []int{1}) {
		t.Errorf("500, 4230: %v, want B", got)
	}
	if got := p.Judge([]Interval{{200, 200}, {2000, 2000}}); !slices.Equal(got, []int{Gap}) {
		t.Errorf("200, 2000: %v, want no rule", got)
	}
}

func TestPublishedGapsSlabBySlab(t *testing.T) {
	t.Parallel()
	l := readLoan(t)
	p := l.table(t)
	total := 0.0
	for _, slab := range l.Recomputed.Slabs {
		income, size := published(t, slab[0]), published(t, slab[1])
		total += (income.Hi - income.Lo) * (size.Hi - size.Lo)
		inside := Interval{math.Nextafter(income.Lo, ol), math.Nextafter(income.Hi, 0)}
		lo, hi := cell{Range: size}.ends()
		if got := p.Judge([]Interval{inside, {lo, hi}}); !slices.Equal(got, []int{Gap}) {
			t.Errorf("%v: %v inside", slab, got)
		}
		for _, beyond := range []float64{math.Nextafter(lo, -ol), math.Nextafter(hi, ol)} {
			if got := p.Judge([]Interval{inside, {beyond, beyond}}); beyond >= 0 && beyond <= 5000 && slices.Contains(got, Gap) {
				t.Errorf("%v: the gap goes on at %v", slab, beyond)
			}
		}
	}
	if total != l.Recomputed.Gap {
		t.Errorf("the slabs cover %v, want %v", total, l.Recomputed.Gap)
	}
}

func TestPublishedBoundaryPoints(t *testing.T) {
	t.Parallel()
	l := readLoan(t)
	p := l.table(t)
	if len(l.Recomputed.Points) != 4 {
		t.Fatalf("%d points", len(l.Recomputed.Points))
	}
	for text, rules := range l.Recomputed.Points {
		at := published(t, "["+strings.Replace(text, ",", "..", 1)+"]")
		var want []int
		for _, r := range rules {
			want = append(want, int(r[0]-'A'))
		}
		if got := p.Judge([]Interval{{at.Lo, at.Lo}, {at.Hi, at.Hi}}); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", text, got, want)
		}
	}
}
