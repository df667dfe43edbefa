package trees

import (
	"fmt"
	"math"
	"strconv"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"
)

// Edges remembers number expressions ready to run, by their text and the
// number of constants they may name. A nil Edges remembers nothing. It is not
// safe for several goroutines.
type Edges map[string]*vm.Program

// number evaluates a number expression over the names of an environment, which
// edgeNames made of that many constants.
func (e Edges) number(text string, env map[string]any, constants int) (float64, error) {
	program, err := e.program(text, env, constants)
	if err != nil {
		return 0, err
	}
	out, err := expr.Run(program, env)
	if err != nil {
		return 0, oneLine(err)
	}
	v := toFloat(out)
	if math.IsNaN(v) {
		return 0, fmt.Errorf("%q gives no number", text)
	}
	return v, nil
}

func (e Edges) program(text string, env map[string]any, constants int) (*vm.Program, error) {
	key := strconv.Itoa(constants) + " " + text
	if known := e[key]; known != nil {
		return known, nil
	}
	if err := tame(text); err != nil {
		return nil, err
	}
	program, err := expr.Compile(text, expr.Env(env), expr.DisableAllBuiltins(), expr.MaxNodes(100))
	if err != nil {
		return nil, oneLine(err)
	}
	if e != nil {
		e[key] = program
	}
	return program, nil
}

// edgeNames are the names an edge may use: mains.low is low of the group mains.
func edgeNames(constants map[string]float64) map[string]any {
	env := map[string]any{
		"min": func(a, b any) float64 { return math.Min(toFloat(a), toFloat(b)) },
		"max": func(a, b any) float64 { return math.Max(toFloat(a), toFloat(b)) },
		"abs": func(a any) float64 { return math.Abs(toFloat(a)) },
	}
	for name, v := range constants {
		group, field, _ := cutDot(name)
		m, _ := env[group].(map[string]float64)
		if m == nil {
			m = map[string]float64{}
			env[group] = m
		}
		m[field] = v
	}
	return env
}
