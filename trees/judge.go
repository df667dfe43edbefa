package trees

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees/prove"
)

// Facts of a reading that a condition may ask for beside its value.
var readingFacts = []string{"moving"}

// Situation is what the edges of bands depend on: the mains of the country,
// what is expected here now, and the mode each probe was read in.
type Situation struct {
	Jurisdiction *Jurisdiction
	Expected     *Expectation
	Modes        map[string]string // probe → mode; a probe not in it: its first mode
	Edges        Edges             // how edges are worked out, where they are again and again; may be nil
}

// AsksMoving says whether a branch of the step asks if a reading moves, so that
// the tree itself says what a voltage that wanders means there.
func (b *Bound) AsksMoving() bool {
	return slices.ContainsFunc(b.Branches, func(br *BoundBranch) bool { return strings.Contains(br.If.Value, "moving(") })
}

// Moves is the fact that a probe's reading moves, or stands still.
func Moves(p BoundProbe, moving bool) prove.Fact {
	return prove.Fact{Name: "moving", Of: p.As, True: moving}
}

// constants are the numbers that edges and conditions may name.
func (s Situation) constants() map[string]float64 {
	c := map[string]float64{"mains.low": s.Jurisdiction.Low, "mains.nominal": s.Jurisdiction.Nominal, "mains.high": s.Jurisdiction.High}
	if e := s.Expected; e != nil {
		c["expected.low"], c["expected.nominal"], c["expected.high"] = e.Low, e.Nominal, e.High
	}
	return c
}

// BranchSet is a step's branches with their bands as numbers, ready to be
// proved or judged. It is for measurements; a look's branches go by answer.
func (s *Set) BranchSet(b *Bound, sit Situation) (prove.Set, error) {
	set, err := s.variables(b.Check, sit)
	if err != nil {
		return set, fmt.Errorf("%s: %w", b.Pos, err)
	}
	for _, br := range b.Branches {
		set.Branches = append(set.Branches, prove.Branch{If: br.If.Value, Else: br.Else})
	}
	return set, nil
}

// Holding is a condition on a check's readings alone, as a set of two
// branches: it holds, or else.
func (s *Set) Holding(c *BoundCheck, condition string, sit Situation) (prove.Set, error) {
	set, err := s.variables(c, sit)
	set.FirstTrue = true
	set.Branches = []prove.Branch{{If: condition}, {Else: true}}
	return set, err
}

func (s *Set) variables(c *BoundCheck, sit Situation) (prove.Set, error) {
	set := prove.Set{Constants: sit.constants(), Facts: readingFacts, FirstTrue: len(c.Probes) > 1}
	domain := c.Quantity.Domain()
	for _, p := range c.Probes {
		v := prove.Variable{Name: p.As, Unit: c.Quantity.Unit(), Min: domain.Lo, Max: domain.Hi}
		mode := sit.Modes[p.As]
		if mode == "" {
			mode = p.Modes[0]
		}
		bands, err := s.bands(c.Check.Scale, mode, s.Scales[c.Check.Scale].constants(set.Constants, p, mode), sit.Edges)
		if err != nil {
			return set, err
		}
		v.Bands = bands
		set.Variables = append(set.Variables, v)
	}
	return set, nil
}

// bands evaluates a scale's edges for one mode. An edge below the one before
// it is lifted to it: its band is empty in this situation, and what lies on the
// edge stays with the band before.
func (s *Set) bands(scale, mode string, constants map[string]float64, known Edges) ([]prove.Band, error) {
	sc := s.Scales[scale]
	if sc == nil {
		return nil, nil
	}
	list := sc.ForMode(mode)
	if list == nil {
		return nil, fmt.Errorf("scale %s has no bands for %s", scale, mode)
	}
	out := make([]prove.Band, 0, len(list))
	env := edgeNames(constants)
	before, including := math.Inf(-1), false
	for _, b := range list {
		to := math.Inf(1)
		if !b.Last {
			var err error
			if to, err = known.number(b.To.Value, env, len(constants)); err != nil {
				return nil, fmt.Errorf("scale %s, band %s: %w", scale, b.Name, err)
			}
		}
		including = b.Including && to >= before || including && to <= before
		before = max(before, to)
		out = append(out, prove.Band{Name: b.Name, To: before, Including: including})
	}
	return out, nil
}

// ForMode gives the bands of a mode; nil if the scale has none for it.
func (sc *Scale) ForMode(mode string) []Band {
	for _, m := range sc.Modes {
		if len(m.Modes) == 0 {
			return m.Bands
		}
		for _, name := range m.Modes {
			if name == mode {
				return m.Bands
			}
		}
	}
	return nil
}

// AnswerBranch finds the branch of a look's answer; -1 if none takes it.
func (b *Bound) AnswerBranch(answer string) int {
	for i, br := range b.Branches {
		if br.Else {
			return i
		}
		for _, a := range br.Answers {
			if a == answer {
				return i
			}
		}
	}
	return -1
}

// AnswerHolds says whether a look's answer is among those named, "rises or warm".
func AnswerHolds(condition, answer string) bool {
	for _, a := range strings.Split(condition, " or ") {
		if strings.TrimSpace(a) == answer {
			return true
		}
	}
	return false
}

// Within is an interval as the proof takes it.
func Within(i measurements.Interval) prove.Interval { return prove.Interval{Lo: i.Lo, Hi: i.Hi} }
