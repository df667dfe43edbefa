package formula

import (
	"fmt"

	"github.com/expr-lang/expr/ast"

	"faultwalk/trees/spelling"
)

// grammar turns a parsed expression into a formula and refuses whatever is not on its list.
type grammar struct{ errors Errors }

func (g *grammar) refuse(at int, format string, args ...any) *Node {
	g.errors = append(g.errors, Error{at, fmt.Sprintf(format, args...)})
	return &Node{Op: Name, At: at}
}

// begin gives where a part is best pointed at; the library places a choice at its end.
func begin(n ast.Node) int {
	if choice, ok := n.(*ast.ConditionalNode); ok {
		return begin(choice.Cond)
	}
	return n.Location().From
}

// node reads one part. After an error it gives something harmless.
func (g *grammar) node(n ast.Node) *Node {
	at := begin(n)
	switch x := n.(type) {
	case *ast.IntegerNode:
		return &Node{Op: Number, At: at, Value: float64(x.Value)}
	case *ast.FloatNode:
		return &Node{Op: Number, At: at, Value: x.Value}
	case *ast.BoolNode:
		return &Node{Op: Number, At: at, Value: truth(x.Value)}
	case *ast.StringNode:
		return &Node{Op: Word, At: at, Name: x.Value}
	case *ast.IdentifierNode:
		return g.name(x.Value, at)
	case *ast.UnaryNode:
		return g.unary(x, at)
	case *ast.BinaryNode:
		return g.binary(x, at)
	case *ast.ConditionalNode:
		return g.choice(x, at)
	case *ast.MemberNode:
		return g.member(x)
	case *ast.CallNode:
		if callee, ok := x.Callee.(*ast.IdentifierNode); ok {
			return g.call(callee.Value, at, x.Arguments)
		}
	case *ast.BuiltinNode:
		return g.call(x.Name, at, x.Arguments)
	}
	return g.refuse(at, "found something that formulas do not have; expected numbers, names, operators and %s", spelling.Quoted(Functions()))
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func (g *grammar) name(name string, at int) *Node {
	if !IsName(name) {
		return g.refuse(at, "found the name %q; expected small letters, digits and _", name)
	}
	return &Node{Op: Name, At: at, Name: name}
}

// IsName says whether a word may stand bare in a formula: small letters,
// digits and _, a letter first.
func IsName(name string) bool {
	for i, r := range name {
		if !(r >= 'a' && r <= 'z' || i > 0 && (r == '_' || r >= '0' && r <= '9')) {
			return false
		}
	}
	return name != ""
}

func (g *grammar) unary(x *ast.UnaryNode, at int) *Node {
	switch x.Operator {
	case "not", "!":
		return g.checked(&Node{Op: Not, Name: "not", At: at, Args: []*Node{g.node(x.Node)}})
	case "-":
		return g.checked(&Node{Op: Minus, Name: "-", At: at, Args: []*Node{g.node(x.Node)}})
	case "+":
		return g.node(x.Node)
	}
	return g.refuse(at, "%q is no operator of formulas", x.Operator)
}

// choice reads a ? b : c. In a ?: b the library uses one part twice, so that
// such choices inside one another would double with each level.
func (g *grammar) choice(x *ast.ConditionalNode, at int) *Node {
	if x.Cond == x.Exp1 {
		return g.refuse(at, "found ?:; write a ? a : b")
	}
	return g.checked(&Node{Op: Choice, At: at, Args: []*Node{g.node(x.Cond), g.node(x.Exp1), g.node(x.Exp2)}})
}

// chained says whether this stands for comparisons in a row, a < b < c: there
// too the library uses the middle twice.
func chained(x *ast.BinaryNode) bool {
	last, ok := x.Left.(*ast.BinaryNode)
	if ok && last.Operator == "&&" {
		last, ok = last.Right.(*ast.BinaryNode)
	}
	next, also := x.Right.(*ast.BinaryNode)
	return x.Operator == "&&" && ok && also && last.Right == next.Left
}

// operators gives the kind of each binary operator and its one spelling.
var operators = map[string]struct {
	op   Op
	name string
}{
	"and": {Logic, "and"}, "&&": {Logic, "and"}, "or": {Logic, "or"}, "||": {Logic, "or"},
	"==": {Compare, "=="}, "!=": {Compare, "!="}, "<": {Compare, "<"}, "<=": {Compare, "<="}, ">": {Compare, ">"}, ">=": {Compare, ">="},
	"+": {Arithmetic, "+"}, "-": {Arithmetic, "-"}, "*": {Arithmetic, "*"}, "/": {Arithmetic, "/"},
}

func (g *grammar) binary(x *ast.BinaryNode, at int) *Node {
	o, known := operators[x.Operator]
	if !known {
		return g.refuse(at, "%q is no operator of formulas; expected and, or, not, comparisons, + - * / or ? :", x.Operator)
	}
	if chained(x) {
		return g.refuse(at, "found comparisons in a row; write a < b and b < c")
	}
	left, right := g.node(x.Left), g.node(x.Right)
	if o.op == Compare && (left.Op == Not || right.Op == Not) {
		return g.refuse(at, "not binds tighter than %s, so this compares with \"not …\"; write not (a %s b), or the opposite comparison",
			o.name, o.name)
	}
	return g.checked(&Node{Op: o.op, Name: o.name, At: at, Args: []*Node{left, right}})
}

// checked reports words where only numbers may stand, as far as the form shows.
func (g *grammar) checked(n *Node) *Node {
	types := make([]Type, len(n.Args))
	for i, a := range n.Args {
		types[i] = a.typ()
	}
	if message := n.mistyped(types); message != "" {
		return g.refuse(n.At, "%s", message)
	}
	return n
}
