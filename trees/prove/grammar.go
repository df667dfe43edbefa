package prove

import (
	"fmt"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/file"

	"faultwalk/trees/spelling"
)

// grammar turns a parsed expression into a formula and refuses whatever is not on its list.
type grammar struct {
	source     string
	vocabulary Vocabulary
	errors     Errors
}

func (g *grammar) refuse(n ast.Node, format string, args ...any) {
	if choice, ok := n.(*ast.ConditionalNode); ok { // the parser places it at its end
		n = choice.Cond
	}
	g.refuseAt(n.Location(), format, args...)
}

func (g *grammar) refuseAt(at file.Location, format string, args ...any) {
	line, column := lineColumn(g.source, at.From)
	g.errors = append(g.errors, Error{Line: line, Column: column, Message: fmt.Sprintf(format, args...)})
}

// formula reads a part that must be true or false. After an error it returns something harmless.
func (g *grammar) formula(n ast.Node) *formula {
	switch x := n.(type) {
	case *ast.BoolNode:
		return &formula{kind: truth, value: x.Value, at: x.Location().From}
	case *ast.UnaryNode:
		if x.Operator == "not" || x.Operator == "!" {
			a := g.formula(x.Node)
			return &formula{kind: not, a: a, at: x.Location().From, reads: a.reads}
		}
	case *ast.BinaryNode:
		return g.binary(x)
	case *ast.CallNode:
		if callee, ok := x.Callee.(*ast.IdentifierNode); ok {
			return g.predicate(x, callee.Value, x.Arguments)
		}
	case *ast.BuiltinNode:
		return g.predicate(x, x.Name, x.Arguments)
	}
	g.refuse(n, "found %s; expected a condition, such as ln < 5 or between(ln, 5, 10)", described(n))
	return &formula{}
}

func (g *grammar) binary(x *ast.BinaryNode) *formula {
	at := x.Location().From
	switch x.Operator {
	case "and", "&&", "or", "||":
		a, b := g.formula(x.Left), g.formula(x.Right)
		kind := and
		if x.Operator == "or" || x.Operator == "||" {
			kind = or
		}
		return &formula{kind: kind, a: a, b: b, at: at, reads: a.reads | b.reads}
	case "<", "<=", ">", ">=", "==", "!=":
		return g.comparison(x.Operator, g.term(x.Left), g.term(x.Right), at)
	case "in", "..":
		g.refuse(x, "%q matches whole numbers only; write between(ln, 200, 250) or the name of a band", x.Operator)
	default:
		g.refuse(x, "%q is not allowed where a condition is expected; use and, or, not, comparisons, between and bands", x.Operator)
	}
	return &formula{}
}

func (g *grammar) comparison(operator string, left, right *term, at int) *formula {
	f := &formula{kind: compare, operator: operator, left: left, right: right, at: at, reads: left.reads | right.reads}
	if len(g.errors) == 0 {
		f.reasonAt, f.reason = g.undecidable(left, right, at)
	}
	return f
}

// predicate reads a band, a fact or between.
func (g *grammar) predicate(n ast.Node, name string, arguments []ast.Node) *formula {
	switch {
	case g.piped(n, arguments):
		return &formula{}
	case name == "between":
		return g.between(n, arguments)
	case name == "abs" || name == "min" || name == "max":
		g.refuse(n, "%s gives a number; compare it with one", name)
		return &formula{}
	case !contains(g.vocabulary.calls(), name):
		g.refuse(n, "unknown function %q%s", name, g.suggest(name, g.vocabulary.calls()))
		return &formula{}
	case len(arguments) != 1:
		g.refuse(n, "%s has %s; expected one reading, such as %s(%s)", name, count(arguments), name, g.anyReading())
		return &formula{}
	}
	id, ok := arguments[0].(*ast.IdentifierNode)
	index := -1
	if ok {
		index = g.vocabulary.reading(id.Value)
	}
	if index < 0 {
		g.refuse(arguments[0], "found %s in %s(…); expected a reading%s", described(arguments[0]), name, g.readings())
		return &formula{}
	}
	return g.named(n, name, index)
}

// piped refuses x | f(), which to the parser is f(x): there the argument stands before the name.
func (g *grammar) piped(n ast.Node, arguments []ast.Node) bool {
	if len(arguments) == 0 || arguments[0].Location().From > n.Location().From {
		return false
	}
	g.refuse(n, "found | before a function; write what stands before it in the brackets")
	return true
}

func count(arguments []ast.Node) string {
	if len(arguments) == 1 {
		return "1 argument"
	}
	return fmt.Sprintf("%d arguments", len(arguments))
}

// named tells a fact from a band of that reading.
func (g *grammar) named(n ast.Node, name string, index int) *formula {
	r := g.vocabulary.Readings[index]
	f := &formula{kind: band, name: name, index: index, at: n.Location().From, reads: 1 << index}
	switch {
	case contains(r.Bands, name):
	case contains(g.vocabulary.Facts, name):
		f.kind = fact
	case len(r.Bands) == 0:
		g.refuse(n, "the reading %s has no bands", r.Name)
	default:
		g.refuse(n, "the reading %s has no band %q; its bands are %s", r.Name, name, spelling.Quoted(r.Bands))
	}
	return f
}

func (g *grammar) between(n ast.Node, arguments []ast.Node) *formula {
	if len(arguments) != 3 {
		g.refuse(n, "between has %s; expected a reading and two limits, such as between(%s, 5, 10)", count(arguments), g.anyReading())
		return &formula{}
	}
	at := n.Location().From
	x, low, high := g.term(arguments[0]), g.term(arguments[1]), g.term(arguments[2])
	if low.kind == literal && high.kind == literal && low.value > high.value {
		g.refuse(arguments[1], "between has its limits the wrong way round; expected the lower one first")
	}
	a, b := g.comparison(">=", x, low, at), g.comparison("<=", x, high, at)
	return &formula{kind: and, a: a, b: b, at: at, reads: a.reads | b.reads}
}

func (g *grammar) anyReading() string {
	if len(g.vocabulary.Readings) == 0 {
		return "reading"
	}
	return g.vocabulary.Readings[0].Name
}

func (g *grammar) readings() string {
	names := make([]string, 0, len(g.vocabulary.Readings))
	for _, r := range g.vocabulary.Readings {
		names = append(names, r.Name)
	}
	if len(names) == 0 {
		return ", and this check gives none"
	}
	return ", one of " + spelling.Quoted(names)
}

// suggest names the likeliest word, or all when they are few.
func (g *grammar) suggest(word string, known []string) string {
	if near := spelling.DidYouMean(word, known); near != "" {
		return near
	}
	if len(known) == 0 {
		return ""
	}
	return "; expected one of " + spelling.Quoted(known)
}

func contains(words []string, word string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}

// described names a part of an expression in the words of the person who wrote it.
func described(n ast.Node) string {
	switch x := n.(type) {
	case *ast.IdentifierNode:
		return fmt.Sprintf("%q", x.Value)
	case *ast.IntegerNode, *ast.FloatNode:
		return "a number"
	case *ast.BoolNode:
		return "true or false"
	case *ast.StringNode, *ast.BytesNode:
		return "a text"
	case *ast.UnaryNode:
		return fmt.Sprintf("%q", x.Operator)
	case *ast.BinaryNode:
		return fmt.Sprintf("%q", x.Operator)
	case *ast.CallNode, *ast.BuiltinNode:
		return "a function"
	case *ast.ConditionalNode:
		return "a choice (? :)"
	case *ast.VariableDeclaratorNode, *ast.SequenceNode:
		return "several statements"
	case *ast.ArrayNode, *ast.MapNode:
		return "a collection"
	case *ast.MemberNode:
		if name, ok := dotted(x); ok {
			return fmt.Sprintf("%q", name)
		}
	case nil:
		return "nothing"
	}
	return "something that is not allowed here"
}

// dotted gives the name behind mains.low.
func dotted(n *ast.MemberNode) (string, bool) {
	property, ok := n.Property.(*ast.StringNode)
	if !ok || n.Optional || n.Method {
		return "", false
	}
	switch x := n.Node.(type) {
	case *ast.IdentifierNode:
		return x.Value + "." + property.Value, true
	case *ast.MemberNode:
		before, ok := dotted(x)
		return before + "." + property.Value, ok
	}
	return "", false
}
