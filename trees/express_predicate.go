package trees

import (
	"github.com/expr-lang/expr/ast"

	"faultwalk/trees/prove"
	"faultwalk/trees/spelling"
)

const predicateForms = `has("part"), chain("id"), call("id"), fact("id") == "option", joined by and, or, not`

// checkPredicate says what is wrong with a question about a plant: an `if:` of
// a step or a `plants:` of a symptom.
func checkPredicate(source string) prove.Errors {
	x, root := parseExpression(source)
	if root != nil {
		x.predicate(root)
	}
	return x.errs
}

func (x *expression) predicate(n ast.Node) {
	switch v := n.(type) {
	case *ast.BoolNode:
		return
	case *ast.UnaryNode:
		if v.Operator == "not" || v.Operator == "!" {
			x.predicate(v.Node)
			return
		}
	case *ast.BinaryNode:
		x.joined(v)
		return
	case *ast.BuiltinNode, *ast.CallNode:
		x.predicateCall(n)
		return
	}
	x.refuse(n, "expected %s", predicateForms)
}

func (x *expression) joined(v *ast.BinaryNode) {
	switch v.Operator {
	case "and", "&&", "or", "||":
		x.predicate(v.Left)
		x.predicate(v.Right)
	case "==", "!=":
		name, ok := oneName(v.Left)
		if _, option := v.Right.(*ast.StringNode); !ok || name != "fact" || !option {
			x.refuse(v, `expected fact("id") %s "option"`, v.Operator)
		}
	default:
		x.refuse(v, "expected %s", predicateForms)
	}
}

func (x *expression) predicateCall(n ast.Node) {
	function, ok := oneName(n)
	switch name, _, _ := callOf(n); {
	case ok && contains([]string{"has", "chain", "call"}, function):
	case name == "fact":
		x.refuse(n, `fact gives a word; compare it: fact("id") == "option"`)
	default:
		x.refuse(n, "expected %s%s", predicateForms, spelling.DidYouMean(name, []string{"has", "chain", "call", "fact"}))
	}
}

// oneName gives the function of a call that has one name in quotes.
func oneName(n ast.Node) (function string, ok bool) {
	name, arguments, ok := callOf(n)
	if !ok || len(arguments) != 1 {
		return "", false
	}
	_, text := arguments[0].(*ast.StringNode)
	return name, text
}
