package prove

import "math"

// term is a number in a condition: a literal, a name, or some of them joined.
type term struct {
	kind  termKind
	value float64 // of a literal
	name  string  // of a constant
	index int     // of a reading
	a, b  *term
	at    int  // offset in the source, in characters
	reads mask // readings in it
}

type termKind int

const (
	literal termKind = iota
	constant
	reading
	negate
	plus
	minus
	times
	over
	least
	most
	absolute
)

// mask is a set of readings, a bit each.
type mask uint8

func (m mask) has(i int) bool { return m&(1<<i) != 0 }

// single returns the only reading of the set.
func (m mask) single() (int, bool) {
	for i := range maxVariables {
		if m == 1<<i {
			return i, true
		}
	}
	return 0, false
}

// closed says whether no reading is in the term.
func (t *term) closed() bool { return t.reads == 0 }

// fold puts the constants' values in and joins what needs no reading into one literal.
func (t *term) fold(constants map[string]float64) *term {
	f := *t
	if t.kind == constant {
		f.kind, f.value = literal, constants[t.name]
		return &f
	}
	if t.a != nil {
		f.a = t.a.fold(constants)
	}
	if t.b != nil {
		f.b = t.b.fold(constants)
	}
	if t.closed() && t.kind != literal {
		return &term{kind: literal, value: f.eval(0), at: t.at}
	}
	return &f
}

// eval gives the value of a folded term of one reading, rounding each step as the expression machine does.
func (t *term) eval(x float64) float64 {
	switch t.kind {
	case literal:
		return t.value
	case reading:
		return x
	case negate:
		return -t.a.eval(x)
	case absolute:
		return math.Abs(t.a.eval(x))
	}
	return join(t.kind, t.a.eval(x), t.b.eval(x))
}

// join applies an operation. The conversions forbid the compiler to fuse steps, which would round differently.
func join(kind termKind, a, b float64) float64 {
	switch kind {
	case plus:
		return float64(a + b)
	case minus:
		return float64(a - b)
	case times:
		return float64(a * b)
	case over:
		return float64(a / b)
	case least:
		return math.Min(a, b)
	}
	return math.Max(a, b)
}
