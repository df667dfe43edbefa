package plant

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"faultwalk/engine/network"
	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// dangling reports points at which mains or a signal should stand and nothing is joined.
func (b *builder) dangling() {
	joined := map[string]bool{}
	for i, br := range b.net.Branches {
		if strings.HasPrefix(b.branches[i].name, "air ") {
			continue
		}
		joined[b.net.Name(br.From)], joined[b.net.Name(br.To)] = true, true
	}
	for _, pt := range b.Plant.Points {
		if pt.Role != "" && !joined[pt.ID] {
			b.problem(pt.Pos, "the point %q dangles: no core, part or supply is joined to it", pt.ID)
		}
	}
}

// undriven reports variables that move by nothing, and those that two rules move.
func (b *builder) undriven() {
	driven := map[int]int{}
	for _, list := range [][]rule{b.rules, b.slow} {
		for _, r := range list {
			driven[r.set]++
		}
	}
	tripped := map[int]bool{}
	for _, t := range b.trips {
		for _, i := range t.set {
			tripped[i] = true
		}
	}
	for i, v := range b.vars {
		switch n := driven[i]; {
		case n > 1:
			b.problem(v.at.Pos, "two rules set the variable %q; expected one", v.name)
		case n == 0 && !v.fixed && !tripped[i]:
			b.problem(v.at.Pos, "no rule drives the variable %q; expected one, or \"fixed: true\" where only a fault changes it", v.name)
		case n > 0 && v.fixed:
			b.problem(v.at.Pos, "the variable %q is fixed and a rule sets it; expected one or the other", v.name)
		}
	}
}

func hint(name string, known []string) string {
	return spelling.DidYouMean(name, known)
}

func sortedKeys[T any](m map[string]T) []string { return slices.Sorted(maps.Keys(m)) }

func problemAt(pos strict.Pos, format string, args ...any) strict.Problem {
	return strict.Problem{File: pos.File, Line: pos.Line, Col: pos.Col, Message: fmt.Sprintf(format, args...)}
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// nodeOf is the node of a place of the plant: a point, a part's terminal
// "part.terminal" or a core's end "core:from".
func (m *Model) nodeOf(name string) (network.Node, bool) { return m.net.Find(name) }
