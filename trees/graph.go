package trees

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"sort"
	"strings"

	"faultwalk/trees/strict"
)

// Check finds a bound check of the graph by its instance text: those of steps,
// of causes, and what clears the sign. Nil if there is none.
func (g *Graph) Check(id string) *BoundCheck { return g.checks[id] }

// Checks lists the bound checks of the graph, in the order of their instance
// texts.
func (g *Graph) Checks() []*BoundCheck { return Checks(g) }

// Checks lists the bound checks of several graphs of one plant, each once, in the
// order of their instance texts.
func Checks(graphs ...*Graph) []*BoundCheck {
	all := map[string]*BoundCheck{}
	for _, g := range graphs {
		maps.Copy(all, g.checks)
	}
	out := make([]*BoundCheck, 0, len(all))
	for _, id := range slices.Sorted(maps.Keys(all)) {
		out = append(out, all[id])
	}
	return out
}

// ChecksOn lists the bound checks of every tree that serves a plant, as [Checks]
// does. A tree that cannot be bound is left out, and what is wrong is told.
func (s *Set) ChecksOn(p *Plant) ([]*BoundCheck, strict.Problems) {
	var graphs []*Graph
	var all strict.Problems
	for _, id := range slices.Sorted(maps.Keys(s.Symptoms)) {
		g, problems := s.Bind(id, p)
		all = append(all, problems...)
		if g != nil && len(problems) == 0 {
			graphs = append(graphs, g)
		}
	}
	return Checks(graphs...), all
}

// Cause finds a bound cause of the graph by its instance text; nil if there is none.
func (g *Graph) Cause(id string) *BoundCause { return g.causes[id] }

// Causes lists every cause that can still be reached from a target, in the
// order of the tree.
func (g *Graph) Causes(t Target) []*BoundCause {
	var out []*BoundCause
	causes, steps := map[*BoundCause]bool{}, map[string]bool{}
	var visit func(t Target)
	visit = func(t Target) {
		for _, c := range t.Causes {
			if !causes[c] {
				causes[c] = true
				out = append(out, c)
			}
		}
		step := g.Steps[t.Go]
		if step == nil || steps[t.Go] {
			return
		}
		steps[t.Go] = true
		for _, br := range step.Branches {
			visit(br.To)
		}
		visit(step.Otherwise)
	}
	visit(t)
	return out
}

// Measured is the hash of what a check measures, where and in which state,
// never of prose: a stored reading answers a check of newer trees only where
// it is equal.
func (c *BoundCheck) Measured() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s|%s|", c.Quantity, c.Need.Power)
	for _, p := range c.Probes {
		to := ""
		if p.To != nil {
			to = p.To.ID
		}
		fmt.Fprintf(&b, "%s:%s>%s:%s|", p.As, p.From.ID, to, strings.Join(p.Modes, ","))
	}
	var calls []string
	for id, on := range c.Need.Calls {
		calls = append(calls, fmt.Sprint(id, on))
	}
	sort.Strings(calls)
	fmt.Fprintf(&b, "%v|%v|%v|%g|", calls, c.Need.Unplugged, c.Need.Enclosures, c.Need.For)
	for _, a := range c.Answers {
		b.WriteString(a.ID + ",")
	}
	b.WriteString(c.ends())
	sum := sha256.Sum256([]byte(b.String()))
	return hex.EncodeToString(sum[:6])
}

// ends is what a check lifts, joins and does, and on which side of parted ends
// it is read; nothing for a check with none of it, so that readings taken
// before these could be said still answer it.
func (c *BoundCheck) ends() string {
	var b strings.Builder
	for _, p := range c.Probes {
		for _, j := range p.Joined {
			fmt.Fprintf(&b, "|joined %s:%s:%s", p.As, j.At.ID, j.Side)
		}
		if len(c.Need.Unplugged)+len(c.Lifted) > 0 && p.FromSide+p.ToSide != "" {
			fmt.Fprintf(&b, "|sides %s:%s:%s", p.As, p.FromSide, p.ToSide)
		}
	}
	if len(c.Lifted) > 0 {
		fmt.Fprintf(&b, "|lifted %v", c.Lifted)
	}
	if len(c.Does) > 0 {
		fmt.Fprintf(&b, "|does %v", c.Does)
	}
	return b.String()
}
