package formula

import "math"

// operation compiles what depends on its operands alone; of constants it is constant.
func (c *compiler[S]) operation(n *Node) Value[S] {
	values := make([]Value[S], len(n.Args))
	known := true
	for i, a := range n.Args {
		values[i] = c.node(a)
		known = known && values[i].Known
	}
	if !c.typed(n, values...) {
		return Value[S]{Get: func(S) float64 { return 0 }}
	}
	if n.Op == Arithmetic && n.Name == "/" && values[1].Known && values[1].Number == 0 {
		return c.refuse(Error{n.At, "division by nought"})
	}
	get := operated(n, values)
	if known {
		var none S
		return Constant[S](get(none))
	}
	return Of(Numeric, get)
}

func operated[S any](n *Node, values []Value[S]) func(S) float64 {
	switch len(values) {
	case 1:
		return unary(n, values[0].Func())
	case 2:
		if values[1].Known && n.Op == Compare {
			return comparedWith(n.Name, values[0].Func(), values[1].Number)
		}
		return binary(n, values[0].Func(), values[1].Func())
	}
	return several(n, values)
}

func unary[S any](n *Node, a func(S) float64) func(S) float64 {
	switch n.Name {
	case "not":
		return func(s S) float64 { return truth(a(s) == 0) }
	case "abs":
		return func(s S) float64 { return math.Abs(a(s)) }
	case "round":
		return func(s S) float64 { return math.Round(a(s)) }
	}
	return func(s S) float64 { return -a(s) }
}

func binary[S any](n *Node, a, b func(S) float64) func(S) float64 {
	switch n.Name {
	case "+":
		return func(s S) float64 { return a(s) + b(s) }
	case "-":
		return func(s S) float64 { return a(s) - b(s) }
	case "*":
		return func(s S) float64 { return a(s) * b(s) }
	case "/":
		return func(s S) float64 { return a(s) / b(s) }
	case "min":
		return func(s S) float64 { return math.Min(a(s), b(s)) }
	case "max":
		return func(s S) float64 { return math.Max(a(s), b(s)) }
	case "==":
		return func(s S) float64 { return truth(a(s) == b(s)) }
	case "!=":
		return func(s S) float64 { return truth(a(s) != b(s)) }
	case "<":
		return func(s S) float64 { return truth(a(s) < b(s)) }
	case "<=":
		return func(s S) float64 { return truth(a(s) <= b(s)) }
	case ">":
		return func(s S) float64 { return truth(a(s) > b(s)) }
	}
	return func(s S) float64 { return truth(a(s) >= b(s)) }
}

// comparedWith compares with a constant, the commonest part of all.
func comparedWith[S any](name string, a func(S) float64, k float64) func(S) float64 {
	switch name {
	case "==":
		return func(s S) float64 { return truth(a(s) == k) }
	case "!=":
		return func(s S) float64 { return truth(a(s) != k) }
	case "<":
		return func(s S) float64 { return truth(a(s) < k) }
	case "<=":
		return func(s S) float64 { return truth(a(s) <= k) }
	case ">":
		return func(s S) float64 { return truth(a(s) > k) }
	}
	return func(s S) float64 { return truth(a(s) >= k) }
}

func several[S any](n *Node, values []Value[S]) func(S) float64 {
	all := make([]func(S) float64, len(values))
	for i, v := range values {
		all[i] = v.Func()
	}
	switch n.Name {
	case "thermistor":
		return func(s S) float64 { return Thermistor(all[0](s), all[1](s), all[2](s)) }
	case "celsius":
		return func(s S) float64 { return Celsius(all[0](s), all[1](s), all[2](s)) }
	}
	better := math.Min
	if n.Name == "max" {
		better = math.Max
	}
	return func(s S) float64 {
		best := all[0](s)
		for _, f := range all[1:] {
			best = better(best, f(s))
		}
		return best
	}
}
