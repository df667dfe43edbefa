package trees

import (
	"github.com/expr-lang/expr"

	"faultwalk/trees/strict"
)

// holds evaluates a predicate over the plant (`has("diverter")`,
// `fact("heat-call") == "linked"`, `chain("diverter-run")`); an empty one holds.
func (b *binder) holds(t strict.Text, sc *scope) bool {
	if t.Value == "" {
		return true
	}
	text := t.Value
	if sc != nil {
		text = fill(text, sc.params, sc.args)
	}
	if ok, known := b.held[text]; known {
		return ok
	}
	ok, err := b.plant.Holds(text)
	if err != nil {
		b.problem(t.Pos, "%v", err)
	}
	b.held[text] = ok
	return ok
}

// Holds evaluates a predicate over the plant. The error is one line.
func (p *Plant) Holds(text string) (bool, error) {
	if err := tame(text); err != nil {
		return false, err
	}
	program, err := expr.Compile(text, expr.Env(p.predicates()), expr.AsBool(), expr.WarnOnAny(), expr.DisableAllBuiltins(), expr.MaxNodes(200))
	if err != nil {
		return false, oneLine(err)
	}
	out, err := expr.Run(program, p.predicates())
	if err != nil {
		return false, oneLine(err)
	}
	return out.(bool), nil
}

func (p *Plant) predicates() map[string]any {
	return map[string]any{
		"has":   func(id string) bool { return p.Part(id) != nil },
		"chain": func(id string) bool { return p.Chain(id) != nil },
		"call":  func(id string) bool { return p.Call(id) != nil },
		"fact":  p.fact,
	}
}

func (p *Plant) fact(id string) string {
	for _, f := range p.Facts {
		if f.ID == id {
			return f.Is
		}
	}
	return ""
}
