package prove

import (
	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/types"
	"github.com/expr-lang/expr/vm"
)

// program is a condition on the expression machine.
type program struct {
	code  *vm.Program
	reads mask
	bands []named
	facts []named
}

// named is a band or a fact of one reading, and the name of its truth in the machine's environment: no person can
// write that name, because it has brackets in it.
type named struct {
	index     int
	name, key string
}

func (p *Prover) program(c *Condition, v Vocabulary, key string) (*program, error) {
	key += c.Source
	if done, ok := p.programs[key]; ok {
		return done, nil
	}
	made := &program{reads: c.formula.reads}
	c.formula.each(func(f *formula) {
		n := named{f.index, f.name, ""}
		switch f.kind {
		case band:
			n.key = call(f.name, v.Readings[f.index].Name)
			made.bands = append(made.bands, n)
		case fact:
			n.key = call(f.name, v.Readings[f.index].Name)
			made.facts = append(made.facts, n)
		}
	})
	code, err := expr.Compile(c.Source, expr.Env(made.environment(v)), expr.Patch(flatten{}), expr.AsBool(), expr.WarnOnAny(),
		expr.MaxNodes(2*maxNodes), expr.DisableAllBuiltins(), expr.EnableBuiltin("abs"), expr.EnableBuiltin("min"), expr.EnableBuiltin("max"))
	if err != nil {
		return nil, err
	}
	made.code = code
	p.programs[key] = made
	return made, nil
}

func call(name, of string) string { return name + "(" + of + ")" }

// environment declares every name: with a closed map a wrong name cannot compile. All numbers are float64.
func (p *program) environment(v Vocabulary) types.Map {
	env := make(types.Map, len(v.Constants)+len(v.Readings)+len(p.bands)+len(p.facts))
	for _, name := range v.numbers() {
		env[name] = types.Float64
	}
	for _, n := range append(p.bands[:len(p.bands):len(p.bands)], p.facts...) {
		env[n.key] = types.Bool
	}
	return env
}

// flatten makes mains.low and sound(ln) plain names, between two comparisons and every number a float64.
type flatten struct{}

func (flatten) Visit(n *ast.Node) {
	switch x := (*n).(type) {
	case *ast.IntegerNode:
		ast.Patch(n, &ast.FloatNode{Value: float64(x.Value)})
	case *ast.MemberNode:
		if name, ok := dotted(x); ok {
			ast.Patch(n, &ast.IdentifierNode{Value: name})
		}
	case *ast.CallNode:
		if callee, ok := x.Callee.(*ast.IdentifierNode); ok {
			flattenCall(n, callee.Value, x.Arguments)
		}
	case *ast.BuiltinNode:
		flattenCall(n, x.Name, x.Arguments)
	}
}

func flattenCall(n *ast.Node, name string, arguments []ast.Node) {
	switch {
	case name == "abs" || name == "min" || name == "max":
	case name == "between" && len(arguments) == 3:
		ast.Patch(n, &ast.BinaryNode{
			Operator: "and",
			Left:     &ast.BinaryNode{Operator: ">=", Left: arguments[0], Right: arguments[1]},
			Right:    &ast.BinaryNode{Operator: "<=", Left: arguments[0], Right: arguments[2]},
		})
	case len(arguments) == 1:
		if id, ok := arguments[0].(*ast.IdentifierNode); ok {
			ast.Patch(n, &ast.IdentifierNode{Value: call(name, id.Value)})
		}
	}
}
