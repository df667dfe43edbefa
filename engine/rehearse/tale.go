package rehearse

import (
	"fmt"
	"math"

	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// tale is a plant that answers what a case says, and is dead when it is proved dead.
type tale struct {
	telling *telling
	of      *trees.Case
	graph   *trees.Graph
	gives   map[string]trees.Given
	taken   map[string]bool
	stuck   bool // it could not answer
}

func newTale(t *telling, c *trees.Case, g *trees.Graph) *tale {
	out := &tale{telling: t, of: c, graph: g, gives: map[string]trees.Given{}, taken: map[string]bool{}}
	for _, one := range c.Gives {
		out.gives[one.Check.Value] = one
	}
	return out
}

func (t *tale) be(*fault, *uint64)     {}
func (t *tale) act(string) error       { return nil }
func (t *tale) shows(*trees.Sign) bool { return true }

func (t *tale) dark(map[string]bool) bool { return true }

func (t *tale) touch(string, map[string]bool, map[string]bool) (float64, string) { return 0, "" }

func (t *tale) volts(safety.FormField, map[string]bool, map[string]bool) float64 { return 0 }

// answer gives what the case says of a check; a probe of which it says nothing
// reads as not a number.
func (t *tale) answer(c *trees.BoundCheck, _ []measurements.ModeSpec, _ standing) (answered, error) {
	g, told := t.gives[c.ID]
	if !told {
		return t.cannot(t.of.Pos, "the case %q gives nothing for the check %q, which the walk comes to", t.of.ID, c.ID)
	}
	t.taken[c.ID] = true
	if len(c.Probes) == 0 {
		return t.look(c, g)
	}
	if len(g.Reads) > len(c.Probes) {
		return t.cannot(g.Check.Pos, "%d readings for %q; expected at most %d", len(g.Reads), c.ID, len(c.Probes))
	}
	a := answered{}
	for i := range c.Probes {
		v := math.NaN()
		if i < len(g.Reads) {
			r, err := measurements.Parse(c.Quantity, g.Reads[i].Value)
			if err != nil {
				return t.cannot(g.Reads[i].Pos, "%s", err)
			}
			v, a.moving = middle(r), a.moving || r.Moving
		}
		a.values = append(a.values, v)
	}
	return a, nil
}

// middle is the value a typed reading stands for: endless where it is open above.
func middle(r measurements.Reading) float64 {
	if r.Open || math.IsInf(r.Value.Hi, 1) {
		return math.Inf(1)
	}
	return (r.Value.Lo + r.Value.Hi) / 2
}

func (t *tale) look(c *trees.BoundCheck, g trees.Given) (answered, error) {
	var ids []string
	for _, a := range c.Answers {
		ids = append(ids, a.ID)
		if len(g.Reads) == 1 && g.Reads[0].Value == a.ID {
			return answered{answer: a.ID}, nil
		}
	}
	said := g.Check
	if len(g.Reads) > 0 {
		said = g.Reads[0]
	}
	return t.cannot(said.Pos, "the check %q has no such answer; expected one of %s%s", c.ID, spelling.Quoted(ids), spelling.DidYouMean(said.Value, ids))
}

func (t *tale) cannot(at strict.Pos, format string, args ...any) (answered, error) {
	t.telling.problem(at, format, args...)
	t.stuck = true
	return answered{}, fmt.Errorf(format, args...)
}

// unread reports probes that were read and of which the case says nothing.
func (t *tale) unread(hops []hop) {
	for _, h := range hops {
		if h.read == nil || len(h.read.check.Probes) == 0 {
			continue
		}
		g := t.gives[h.read.check.ID]
		for i, v := range h.read.values {
			if v.read && i >= len(g.Reads) {
				t.telling.problem(g.Check.Pos, "the case %q gives %d readings for %q; the step %s wants %d", t.of.ID, len(g.Reads), h.read.check.ID, h.step.Path, i+1)
				break
			}
		}
	}
}

// untaken reports what the case gives and the walk never comes to.
func (t *tale) untaken() {
	var known []string
	for _, c := range t.graph.Checks() {
		known = append(known, c.ID)
	}
	for _, g := range t.of.Gives {
		switch id := g.Check.Value; {
		case t.taken[id]:
		case t.graph.Check(id) == nil:
			t.telling.problem(g.Check.Pos, "the tree of %q takes no check %q on the plant %q%s", t.of.Symptom.Value, id, t.of.Plant.Value, spelling.DidYouMean(id, known))
		default:
			t.telling.problem(g.Check.Pos, "the walk of the case %q never comes to the check %q; expected only what is taken", t.of.ID, id)
		}
	}
}
