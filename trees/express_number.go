package trees

import (
	"github.com/expr-lang/expr/ast"

	"faultwalk/trees/prove"
	"faultwalk/trees/spelling"
)

// EdgeNames are the constants a band's edge may use: the jurisdiction's mains
// in volts, and the expectation of the check in its own unit.
var EdgeNames = []string{"mains.low", "mains.nominal", "mains.high", "expected.low", "expected.nominal", "expected.high"}

// checkNumber says what is wrong with a number made with + - * / min, max and
// abs over the given names.
func checkNumber(source string, names []string) prove.Errors {
	x, root := parseExpression(source)
	if root != nil {
		x.number(root, names)
	}
	return x.errs
}

// number looks at one part that must be a number.
func (x *expression) number(n ast.Node, names []string) {
	switch v := n.(type) {
	case *ast.IntegerNode, *ast.FloatNode:
		return
	case *ast.IdentifierNode, *ast.MemberNode:
		x.name(n, names)
		return
	case *ast.UnaryNode:
		if v.Operator == "-" {
			x.number(v.Node, names)
			return
		}
	case *ast.BinaryNode:
		if contains([]string{"+", "-", "*", "/"}, v.Operator) {
			x.number(v.Left, names)
			x.number(v.Right, names)
			return
		}
	case *ast.BuiltinNode, *ast.CallNode:
		x.numberCall(n, names)
		return
	}
	x.refuse(n, "expected a number made with + - * / min, max, abs")
}

func (x *expression) name(n ast.Node, names []string) {
	name, first, ok := dotted(n)
	switch {
	case !ok:
		x.refuse(n, "expected a number or a name")
	case !contains(names, name):
		x.refuse(first, "unknown name %q%s", clip(name), nearOrAll(name, names))
	}
}

func (x *expression) numberCall(n ast.Node, names []string) {
	name, arguments, _ := callOf(n)
	wanted := map[string]int{"min": 2, "max": 2, "abs": 1}[name]
	switch {
	case wanted == 0:
		x.refuse(n, "unknown function %q%s", clip(name), nearOrAll(name, []string{"abs", "max", "min"}))
	case len(arguments) != wanted:
		x.refuse(n, "%s has %d arguments; expected %d", name, len(arguments), wanted)
	default:
		for _, a := range arguments {
			x.number(a, names)
		}
	}
}

// nearOrAll suggests the likeliest name, or all of them.
func nearOrAll(name string, known []string) string {
	if near := spelling.DidYouMean(name, known); near != "" {
		return near
	}
	if len(known) == 0 {
		return "; expected a plain number"
	}
	return "; expected one of " + spelling.Quoted(known)
}
