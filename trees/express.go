package trees

import (
	"errors"
	"fmt"
	"strings"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"

	"faultwalk/trees/prove"
)

// maxParts bounds the names, numbers and operators of one expression.
const maxParts = 200

// expression walks a parsed text and refuses whatever is not on the list of
// the kind of expression that it is. Conditions over readings are package
// prove's; numbers, expectations and questions about a plant are read here.
type expression struct {
	source string
	errs   prove.Errors
}

// parseExpression gives the parsed text, or nil after an error.
func parseExpression(source string) (*expression, ast.Node) {
	x := &expression{source: source}
	if err := tame(source); err != nil {
		x.errs = append(x.errs, prove.Error{Line: 1, Message: err.Error()})
		return x, nil
	}
	config := conf.CreateNew()
	config.MaxNodes = maxParts
	tree, err := parser.ParseWithConfig(source, config)
	if err == nil {
		return x, tree.Node
	}
	at := &file.Error{Message: err.Error()}
	errors.As(err, &at)
	message, _, _ := strings.Cut(at.Message, "\n")
	x.errs = append(x.errs, prove.Error{Line: max(at.Line, 1), Column: at.Column, Message: "cannot be read: " + message})
	return x, nil
}

// refuse records what is wrong at a part of the expression.
func (x *expression) refuse(n ast.Node, format string, args ...any) {
	line, column := 1, 0
	for i, r := range []rune(x.source) {
		if i == n.Location().From {
			break
		}
		column++
		if r == '\n' {
			line, column = line+1, 0
		}
	}
	x.errs = append(x.errs, prove.Error{Line: line, Column: column, Message: fmt.Sprintf(format, args...)})
}

// callOf gives the name and the arguments of a call.
func callOf(n ast.Node) (name string, arguments []ast.Node, ok bool) {
	switch c := n.(type) {
	case *ast.BuiltinNode:
		return c.Name, c.Arguments, true
	case *ast.CallNode:
		if id, plain := c.Callee.(*ast.IdentifierNode); plain {
			return id.Value, c.Arguments, true
		}
	}
	return "", nil, false
}

// dotted gives a name such as pocket or mains.low, and the part it begins with.
func dotted(n ast.Node) (name string, first ast.Node, ok bool) {
	switch x := n.(type) {
	case *ast.IdentifierNode:
		return x.Value, x, true
	case *ast.MemberNode:
		property, plain := x.Property.(*ast.StringNode)
		if !plain || x.Optional || x.Method {
			return "", nil, false
		}
		before, first, ok := dotted(x.Node)
		return before + "." + property.Value, first, ok
	}
	return "", nil, false
}
