package trees

import (
	"fmt"
	"math"

	"github.com/expr-lang/expr"
)

// Expectation is what a check should give here now, in SI units, with where it
// comes from.
type Expectation struct {
	Low, Nominal, High float64
	Source             string
}

// Expect computes a check's expectation on a plant. Used are the middles of the
// readings it needs, by the name the check gives them. A check without one
// gives nil.
func (p *Plant) Expect(c *BoundCheck, j *Jurisdiction, used map[string]float64) (*Expectation, error) {
	if c.Expect.Value == "" {
		return nil, nil
	}
	if err := tame(c.Expect.Value); err != nil {
		return nil, err
	}
	env := p.expectations(j)
	for name := range c.Uses {
		v, ok := used[name]
		if !ok {
			return nil, fmt.Errorf("%s needs the reading %q first", c.ID, name)
		}
		env[name] = v
	}
	program, err := expr.Compile(c.Expect.Value, expr.Env(env), expr.DisableAllBuiltins(), expr.MaxNodes(200))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", c.Expect.Pos, oneLine(err))
	}
	out, err := expr.Run(program, env)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", c.Expect.Pos, oneLine(err))
	}
	e, ok := out.(*Expectation)
	if !ok {
		return nil, fmt.Errorf("%s: found %T; expected between(…), thermistor(…), element(…), core(…) or supply()", c.Expect.Pos, out)
	}
	return e, nil
}

func cutDot(s string) (before, after string, found bool) {
	for i := range s {
		if s[i] == '.' {
			return s[:i], s[i+1:], true
		}
	}
	return s, "", false
}

// toFloat takes expr's numbers, whole or not; NaN for anything else.
func toFloat(v any) float64 {
	switch x := v.(type) {
	case float64:
		return x
	case int:
		return float64(x)
	}
	return math.NaN()
}
