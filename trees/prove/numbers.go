package prove

import (
	"github.com/expr-lang/expr/ast"
)

var joins = map[string]termKind{"+": plus, "-": minus, "*": times, "/": over}

// term reads a part that must be a number.
func (g *grammar) term(n ast.Node) *term {
	at := n.Location().From
	switch x := n.(type) {
	case *ast.IntegerNode:
		return &term{value: float64(x.Value), at: at}
	case *ast.FloatNode:
		return &term{value: x.Value, at: at}
	case *ast.IdentifierNode:
		return g.name(x, x.Value)
	case *ast.MemberNode:
		if name, ok := dotted(x); ok {
			return g.name(x, name)
		}
	case *ast.UnaryNode:
		if x.Operator == "-" {
			a := g.term(x.Node)
			return &term{kind: negate, a: a, at: at, reads: a.reads}
		}
		if x.Operator == "not" || x.Operator == "!" {
			g.refuse(x, "%s stands before a number; write it before a condition in brackets, such as not (%s < 5)", x.Operator, g.anyReading())
			return &term{at: at}
		}
	case *ast.BinaryNode:
		return g.sum(x)
	case *ast.BuiltinNode:
		return g.function(x, x.Name, x.Arguments)
	case *ast.CallNode:
		if callee, ok := x.Callee.(*ast.IdentifierNode); ok {
			return g.function(x, callee.Value, x.Arguments)
		}
	}
	g.refuse(n, "found %s; expected a number", described(n))
	return &term{at: at}
}

func (g *grammar) name(n ast.Node, name string) *term {
	at := firstPart(n).Location()
	if i := g.vocabulary.reading(name); i >= 0 {
		return &term{kind: reading, index: i, at: at.From, reads: 1 << i}
	}
	if contains(g.vocabulary.Constants, name) {
		return &term{kind: constant, name: name, at: at.From}
	}
	g.refuseAt(at, "unknown name %q%s", name, g.suggest(name, g.vocabulary.numbers()))
	return &term{at: at.From}
}

// firstPart finds where a name with dots begins.
func firstPart(n ast.Node) ast.Node {
	for {
		member, ok := n.(*ast.MemberNode)
		if !ok {
			return n
		}
		n = member.Node
	}
}

func (g *grammar) sum(x *ast.BinaryNode) *term {
	kind, ok := joins[x.Operator]
	if !ok {
		g.refuse(x, "found %q; expected a number made with + - * / abs, min or max", x.Operator)
		return &term{at: x.Location().From}
	}
	a, b := g.term(x.Left), g.term(x.Right)
	return &term{kind: kind, a: a, b: b, at: x.Location().From, reads: a.reads | b.reads}
}

func (g *grammar) function(n ast.Node, name string, arguments []ast.Node) *term {
	at := n.Location().From
	if g.piped(n, arguments) {
		return &term{at: at}
	}
	kind, wanted := most, 2
	switch name {
	case "abs":
		kind, wanted = absolute, 1
	case "min":
		kind = least
	case "max":
	default:
		if contains(g.vocabulary.calls(), name) {
			g.refuse(n, "%s(…) is true or false; expected a number", name)
		} else {
			g.refuse(n, "unknown function %q%s", name, g.suggest(name, []string{"abs", "min", "max"}))
		}
		return &term{at: at}
	}
	if len(arguments) != wanted {
		g.refuse(n, "%s has %s; expected %d", name, count(arguments), wanted)
		return &term{at: at}
	}
	t := &term{kind: kind, a: g.term(arguments[0]), at: at}
	t.reads = t.a.reads
	if wanted == 2 {
		t.b = g.term(arguments[1])
		t.reads |= t.b.reads
	}
	return t
}
