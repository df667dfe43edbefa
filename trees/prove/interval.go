package prove

import "math"

// Interval is the readings from Lo to Hi, both included. OL is from +Inf to +Inf.
type Interval struct{ Lo, Hi float64 }

// tri is true, false, or either.
type tri int

const (
	either tri = iota
	no
	yes
)

func toTri(holds, fails bool) tri {
	switch {
	case holds:
		return yes
	case fails:
		return no
	}
	return either
}

// box is what is known of the readings and facts while one condition is judged as a whole.
type box struct {
	set    Set
	ranges []Interval
	facts  []Fact
}

// judge says whether a condition holds everywhere in the box, nowhere, or cannot be told.
func (b box) judge(f *formula) tri {
	switch f.kind {
	case truth:
		return toTri(f.value, !f.value)
	case not:
		return opposite[b.judge(f.a)]
	case and:
		x, y := b.judge(f.a), b.judge(f.b)
		return toTri(x == yes && y == yes, x == no || y == no)
	case or:
		x, y := b.judge(f.a), b.judge(f.b)
		return toTri(x == yes || y == yes, x == no && y == no)
	case band:
		return b.band(f)
	case fact:
		return b.fact(f.name, b.set.Variables[f.index].Name)
	}
	return b.compare(f)
}

var opposite = map[tri]tri{yes: no, no: yes, either: either}

func (b box) band(f *formula) tri {
	v, r := b.set.Variables[f.index], b.ranges[f.index]
	if lo := v.within(f.name, r.Lo); lo == v.within(f.name, r.Hi) {
		if lo {
			return yes
		}
		for _, edge := range v.edges(f.name) { // the band may lie inside the interval
			if edge >= r.Lo && edge <= r.Hi {
				return either
			}
		}
		return no
	}
	return either
}

func (b box) fact(name, of string) tri {
	for _, f := range b.facts {
		if f.Name == name && f.Of == of {
			return toTri(f.True, !f.True)
		}
	}
	return either
}

func (b box) compare(f *formula) tri {
	x, ok := b.term(f.left)
	y, ok2 := b.term(f.right)
	if !ok || !ok2 {
		return either
	}
	same := x.Lo == x.Hi && x.Lo == y.Lo && y.Lo == y.Hi
	apart := x.Hi < y.Lo || y.Hi < x.Lo
	switch f.operator {
	case "<":
		return toTri(x.Hi < y.Lo, x.Lo >= y.Hi)
	case "<=":
		return toTri(x.Hi <= y.Lo, x.Lo > y.Hi)
	case ">":
		return toTri(x.Lo > y.Hi, x.Hi <= y.Lo)
	case ">=":
		return toTri(x.Lo >= y.Hi, x.Hi < y.Lo)
	case "==":
		return toTri(same, apart)
	}
	return toTri(apart, same)
}

// term gives bounds of a number, or false where it might not be a number. Rounding keeps order, so the ends of the
// operands give the ends of the outcome.
func (b box) term(t *term) (Interval, bool) {
	switch t.kind {
	case literal:
		return Interval{t.value, t.value}, !math.IsNaN(t.value)
	case constant:
		c := b.set.Constants[t.name]
		return Interval{c, c}, true
	case reading:
		return b.ranges[t.index], true
	}
	x, ok := b.term(t.a)
	if !ok || t.b == nil {
		return x.unary(t.kind), ok
	}
	y, ok := b.term(t.b)
	if !ok || !x.joinable(t.kind, y) {
		return Interval{}, false
	}
	return x.join(t.kind, y), true
}

func (x Interval) unary(kind termKind) Interval {
	switch {
	case kind == negate:
		return Interval{-x.Hi, -x.Lo}
	case x.Lo >= 0:
		return x
	case x.Hi <= 0:
		return Interval{-x.Hi, -x.Lo}
	}
	return Interval{0, max(-x.Lo, x.Hi)}
}

// joinable says whether the ends of the operands give the ends of the outcome: not where infinity may meet 0, nor
// where 0 may be below. Infinity less infinity needs no care, as it is an end, and an end that is no number leaves
// every comparison open.
func (x Interval) joinable(kind termKind, y Interval) bool {
	switch kind {
	case times:
		return !x.infinite() && !y.infinite()
	case over:
		return !x.infinite() && !y.infinite() && (y.Lo > 0 || y.Hi < 0)
	}
	return true
}

func (x Interval) infinite() bool { return math.IsInf(x.Lo, 0) || math.IsInf(x.Hi, 0) }

func (x Interval) join(kind termKind, y Interval) Interval {
	first := join(kind, x.Lo, y.Lo)
	out := Interval{first, first}
	for _, v := range []float64{join(kind, x.Lo, y.Hi), join(kind, x.Hi, y.Lo), join(kind, x.Hi, y.Hi)} {
		out = Interval{min(out.Lo, v), max(out.Hi, v)}
	}
	return out
}
