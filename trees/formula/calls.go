package formula

import (
	"fmt"

	"github.com/expr-lang/expr/ast"

	"faultwalk/trees/spelling"
)

// member reads part("x").field.
func (g *grammar) member(x *ast.MemberNode) *Node {
	property, ok := x.Property.(*ast.StringNode)
	call, isCall := x.Node.(*ast.CallNode)
	at := x.Location().From
	if !ok || !isCall || x.Optional {
		return g.refuse(at, `found a . or [ that formulas do not have; expected it after part("…"), box("…") or device("…") only`)
	}
	callee, ok := call.Callee.(*ast.IdentifierNode)
	if !ok {
		return g.refuse(at, "found a call of what is no function")
	}
	n := g.function(callee.Value, begin(call), call.Arguments)
	switch f, known := functions[callee.Value]; {
	case !known:
		return n
	case !f.field:
		return g.refuse(at, "%s gives a value, which has no %q", callee.Value, property.Value)
	case !IsName(property.Value):
		return g.refuse(at, "found the name %q; expected small letters, digits and _", property.Value)
	}
	n.Field, n.FieldAt = property.Value, at
	return n
}

// call reads a function that nothing follows.
func (g *grammar) call(name string, at int, arguments []ast.Node) *Node {
	n := g.function(name, at, arguments)
	if f := functions[name]; f.field {
		return g.refuse(at, "%s needs what is asked of it, as in %s", name, f.example)
	}
	return n
}

// function reads the name and the brackets of a function.
func (g *grammar) function(name string, at int, arguments []ast.Node) *Node {
	f, known := functions[name]
	switch {
	case !known:
		return g.refuse(at, "unknown function %q%s", name, suggest(name, Functions()))
	case len(arguments) > 0 && begin(arguments[0]) < at:
		return g.refuse(at, "found | before a function; write what stands before it in the brackets")
	case len(arguments) < f.words+f.args || len(arguments) > f.words+f.args && !f.more:
		return g.refuse(at, "%s has %s; expected %s", name, counted(len(arguments)), f.example)
	}
	n := &Node{Op: Function, Name: name, At: at}
	for i, a := range arguments {
		if i < f.words {
			g.word(n, f, a)
		} else {
			n.Args = append(n.Args, g.node(a))
		}
	}
	return g.sensible(n)
}

// word reads a name in quotes.
func (g *grammar) word(n *Node, f function, a ast.Node) {
	s, ok := a.(*ast.StringNode)
	if !ok {
		g.refuse(begin(a), "the names in the brackets of %s stand in quotes, as in %s", n.Name, f.example)
		return
	}
	n.Words, n.WordsAt = append(n.Words, s.Value), append(n.WordsAt, begin(a))
}

// sensible checks what stands in the brackets of a function.
func (g *grammar) sensible(n *Node) *Node {
	switch {
	case n.Name == "swings":
		return n
	case n.Name != "after":
		return g.checked(n)
	case len(n.Words) == 0:
		return n
	}
	acts, at, err := parseActs(n.Words[0])
	if err != nil {
		return g.refuse(n.WordsAt[0]+1+at, "%v", err)
	}
	n.Acts = acts
	return n
}

func counted(n int) string {
	if n == 1 {
		return "1 argument"
	}
	return fmt.Sprintf("%d arguments", n)
}

// suggest names the likeliest word, or all when they are few.
func suggest(word string, known []string) string {
	if near := spelling.DidYouMean(word, known); near != "" || len(known) == 0 || len(known) > 30 {
		return near
	}
	return "; expected one of " + spelling.Quoted(known)
}
