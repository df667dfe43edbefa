package prove

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/vm"
)

// writer writes random conditions over mains readings.
type writer struct {
	*rand.Rand
	readings []string
	mixed    bool // two readings may be compared with each other
}

func (w writer) number() string { return fmt.Sprint(w.IntN(40) * 10) }

func (w writer) pick(of ...string) string { return of[w.IntN(len(of))] }

func (w writer) atom() string {
	x, compare := w.pick(w.readings...), w.pick("<", "<=", ">", ">=", "==", "!=")
	switch w.IntN(14) {
	case 0:
		return fmt.Sprintf("between(%s, %s, 1.5 * %s)", x, w.number(), w.number())
	case 1:
		return fmt.Sprintf("abs(%s - %s) %s %s", x, w.number(), compare, w.number())
	case 2:
		return fmt.Sprintf("%s %s %s", w.number(), compare, x)
	case 3:
		return fmt.Sprintf("moving(%s)", x)
	case 4:
		return fmt.Sprintf("%s * 1.1 - 3 %s %s", x, compare, w.number())
	case 5:
		return fmt.Sprintf("%s %s mains.low", x, compare)
	case 6:
		return fmt.Sprintf("5 - abs(abs(%s / 3 - 20) - 7.1) %s %s / 50", x, compare, w.number())
	case 7:
		return fmt.Sprintf("max(%s, %s) %s min(%s, mains.low)", x, w.number(), compare, w.number())
	case 8: // a million volts more lets thousands of readings round to one
		return fmt.Sprintf("%s + 1000000 %s %s + 1000000", w.number(), compare, x)
	case 9:
		return fmt.Sprintf("abs(%s + 1000000 - 1000%s) %s 0", x, w.pick("230", "050", "207"), compare)
	case 10:
		if w.mixed {
			return fmt.Sprintf("%s + %s %s %s", x, w.number(), compare, w.pick(w.readings...))
		}
	}
	return fmt.Sprintf("%s(%s)", w.pick("dead", "leaky", "series", "poor", "weak", "sound", "high"), x)
}

func (w writer) condition(depth int) string {
	if depth == 0 || w.IntN(4) == 0 {
		return w.atom()
	}
	switch w.IntN(4) {
	case 0:
		return "(" + w.condition(depth-1) + " and " + w.condition(depth-1) + ")"
	case 1:
		return "(" + w.condition(depth-1) + " or " + w.condition(depth-1) + ")"
	case 2:
		return "not (" + w.condition(depth-1) + ")"
	}
	return w.condition(depth - 1)
}

// branches writes a set of which many are exhaustive and exclusive.
func (w writer) branches() []string {
	a := w.condition(2)
	switch w.IntN(3) {
	case 0:
		return []string{a, "not (" + a + ")"}
	case 1:
		b := w.condition(1)
		return []string{"(" + a + ") and (" + b + ")", "(" + a + ") and not (" + b + ")", "not (" + a + ")"}
	}
	return []string{a, w.condition(2)}
}

// oracle runs conditions on the expression machine alone: no partition, no cells, bands written out as functions.
type oracle struct {
	programs []*vm.Program
	env      map[string]any
}

func newOracle(t testing.TB, s Set) *oracle {
	t.Helper()
	o := &oracle{env: map[string]any{"mains": map[string]any{"low": 216.2}}}
	edge := 0.0
	for _, b := range mains() {
		from, to, including := edge, b.To, b.Including
		afterSound := b.Name == "high"
		o.env[b.Name] = func(x float64) bool {
			return (x > from || x == from && !afterSound) && (x < to || x == to && (including || math.IsInf(to, 1)))
		}
		edge = b.To
	}
	o.env["between"] = func(x, lo, hi float64) bool { return lo <= x && x <= hi }
	for _, v := range s.Variables {
		o.env[v.Name] = 0.0
		o.env["moves_"+v.Name] = false
	}
	for _, b := range s.Branches {
		if b.Else {
			continue
		}
		source := b.If
		for _, v := range s.Variables {
			source = strings.ReplaceAll(source, "moving("+v.Name+")", "moves_"+v.Name)
		}
		p, err := expr.Compile(source, expr.Env(o.env), expr.AsBool(), expr.Patch(floats{}))
		if err != nil {
			t.Fatal(err)
		}
		o.programs = append(o.programs, p)
	}
	return o
}

// floats makes every literal a float64, as an int would reach a function as one.
type floats struct{}

func (floats) Visit(n *ast.Node) {
	if x, ok := (*n).(*ast.IntegerNode); ok {
		ast.Patch(n, &ast.FloatNode{Value: float64(x.Value)})
	}
}

// at gives the branches whose condition is true.
func (o *oracle) at(t testing.TB, s Set, point []float64, facts []Fact) (on []int) {
	t.Helper()
	for i, x := range point {
		o.env[s.Variables[i].Name] = x
	}
	for _, f := range facts {
		o.env["moves_"+f.Of] = f.True
	}
	for i, p := range o.programs {
		v, err := vm.Run(p, o.env)
		if err != nil {
			t.Fatal(err)
		}
		if v.(bool) {
			on = append(on, i)
		}
	}
	return on
}

// somewhere gives readings worth trying: whole and half volts, edges and their neighbours, anything, and OL.
func (w writer) somewhere() float64 {
	x := float64(w.IntN(900)) / 2
	switch w.IntN(8) {
	case 0:
		return w.Float64() * 450
	case 1:
		return math.Nextafter(x, 0)
	case 2:
		return math.Nextafter(x, ol)
	case 3:
		if w.IntN(10) == 0 {
			return ol
		}
		return []float64{5, 50, 150, 207, 216.2, 253}[w.IntN(6)]
	}
	return x
}

func randomly(seed uint64, mixed bool, readings ...string) writer {
	return writer{rand.New(rand.NewPCG(seed, 2)), readings, mixed}
}

func TestProvedSetsOwnEveryReadingOnce(t *testing.T) {
	t.Parallel()
	w, prover, proved := randomly(1, false, "ln"), New(), 0
	for range 400 {
		s := single(w.branches()...)
		p, undecided, err := prover.Table(s)
		if err != nil || undecided != nil {
			t.Fatal(s.Branches, err, undecided)
		}
		o := newOracle(t, s)
		gaps := slices.DeleteFunc(p.Findings(), func(f Finding) bool { return f.Kind == Dead })
		for _, f := range gaps {
			if on := o.at(t, s, f.Witness, f.Facts); len(on) == 1 {
				t.Fatalf("%v: %s, but only %v is true", s.Branches, f, on)
			}
		}
		if len(gaps) > 0 {
			continue
		}
		proved++
		for range 1600 {
			x, facts := w.somewhere(), []Fact{{"moving", "ln", w.IntN(2) == 0}}
			if on := o.at(t, s, []float64{x}, facts); len(on) != 1 || !slices.Equal(on, p.Judge([]Interval{{x, x}}, facts...)) {
				t.Fatalf("%v was proved, but at %v %v %v are true and %v judged", s.Branches, x, facts, on, p.Judge([]Interval{{x, x}}, facts...))
			}
		}
	}
	if proved < 150 {
		t.Errorf("only %d sets were proved; the test says little", proved)
	}
}

func TestDeadBranchesAreNeverTaken(t *testing.T) {
	t.Parallel()
	w, prover, dead := randomly(2, true, "ln", "le"), New(), 0
	for range 300 {
		s := double(w.condition(2), w.condition(2), w.condition(2), "else")
		p, _, err := prover.Table(s)
		if err != nil {
			t.Fatal(err)
		}
		o := newOracle(t, s)
		for _, f := range p.Findings() {
			dead++
			for range 300 {
				point, facts := []float64{w.somewhere(), w.somewhere()}, w.facts()
				if taken := first(o.at(t, s, point, facts), s); taken == f.Branches[0] {
					t.Fatalf("%v: %s, but %v %v leads there", s.Branches, f, point, facts)
				}
			}
		}
	}
	if dead < 20 {
		t.Errorf("only %d dead branches; the test says little", dead)
	}
}

// double makes a set over two readings.
func double(conditions ...string) Set {
	return Set{Variables: []Variable{volts("ln"), volts("le")}, Facts: []string{"moving"},
		Constants: map[string]float64{"mains.low": 216.2}, FirstTrue: true}.with(conditions)
}

func (w writer) facts() []Fact {
	return []Fact{{"moving", "ln", w.IntN(2) == 0}, {"moving", "le", w.IntN(2) == 0}}
}

func first(on []int, s Set) int {
	if len(on) > 0 {
		return on[0]
	}
	return len(s.Branches) - 1
}

// interval gives a stretch of readings with both of the points in it.
func interval(a, b float64) Interval { return Interval{min(a, b), max(a, b)} }

func TestJudgeLosesNoBranchAndNamesNoneTooMany(t *testing.T) {
	t.Parallel()
	w, prover := randomly(3, true, "ln", "le"), New()
	for range 300 {
		s := double(w.condition(2), w.condition(1), "else")
		p, undecided, err := prover.Table(s)
		if err != nil {
			t.Fatal(err)
		}
		o := newOracle(t, s)
		for range 100 {
			a, b, facts := []float64{w.somewhere(), w.somewhere()}, []float64{w.somewhere(), w.somewhere()}, w.facts()
			box := []Interval{interval(a[0], b[0]), interval(a[1], b[1])}
			judged := p.Judge(box, facts...)
			for _, point := range [][]float64{a, b, {a[0], b[1]}, {b[0], a[1]}, {(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}} {
				taken := first(o.at(t, s, point, facts), s)
				if !slices.Contains(judged, taken) {
					t.Fatalf("%v: %v %v leads to %d, but the box around it to %v", s.Branches, point, facts, taken, judged)
				}
				exact := []Interval{{point[0], point[0]}, {point[1], point[1]}}
				got := p.Judge(exact, facts...)
				if !slices.Contains(got, taken) || len(undecided) == 0 && len(got) != 1 {
					t.Fatalf("%v: %v %v leads to %d, judged %v", s.Branches, point, facts, taken, got)
				}
			}
		}
	}
}
