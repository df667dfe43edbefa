package trees

import (
	"github.com/expr-lang/expr/ast"

	"faultwalk/trees/prove"
	"faultwalk/trees/spelling"
)

// expectForm is one function an expectation may be: whether it begins with
// the name of a thing in quotes, and how many numbers follow.
type expectForm struct {
	named   bool
	numbers int
	form    string
}

func expectForms() map[string]expectForm {
	return map[string]expectForm{
		"between":    {false, 2, "between(low, high)"},
		"thermistor": {true, 2, `thermistor("sensor", low, high)`},
		"element":    {true, 0, `element("part")`},
		"supply":     {false, 0, "supply()"},
		"core":       {true, 0, `core("core")`},
	}
}

// checkExpectation says what is wrong with an `expect:`. Names are the earlier
// readings it may use.
func checkExpectation(source string, names []string) prove.Errors {
	x, root := parseExpression(source)
	if root != nil {
		x.expectation(root, names)
	}
	return x.errs
}

func (x *expression) expectation(n ast.Node, names []string) {
	name, arguments, ok := callOf(n)
	f, known := expectForms()[name]
	if !ok || !known {
		x.refuse(n, "expected one of between(low, high), core(…), element(…), supply(), thermistor(…)%s",
			spelling.DidYouMean(name, []string{"between", "core", "element", "supply", "thermistor"}))
		return
	}
	wanted := f.numbers
	if f.named {
		wanted++
	}
	if len(arguments) != wanted {
		x.refuse(n, "%s has %d arguments; expected %s", name, len(arguments), f.form)
		return
	}
	if f.named {
		if _, text := arguments[0].(*ast.StringNode); !text {
			x.refuse(arguments[0], "expected a name in quotes, as in %s", f.form)
		}
		arguments = arguments[1:]
	}
	for _, a := range arguments {
		x.number(a, names)
	}
}
