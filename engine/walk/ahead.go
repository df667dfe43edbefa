package walk

import (
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// stepsAhead is how far the walk looks for covers it will need.
const stepsAhead = 4

// ahead lists the mains enclosures that the next steps will need, and those of
// the same routine or split: their covers come off in the same dead period.
func (j *Job) ahead(a *aim) []string {
	if a.step == nil {
		return nil
	}
	return Ahead(j.mind.graph, a.step, func(c *trees.BoundCheck) bool {
		return safety.Ever(j.context(), j.world, safety.OfCheck(c, j.modes(c)...)) == nil
	})
}

// Ahead lists the mains enclosures in which a step and those behind it read live,
// in the order of the plant; may says whether these hands may take a check. It is
// what safety.Plan opens in the same dead period. What is looked into or read dead
// is opened as it is reached: the locks are on then.
func Ahead(g *trees.Graph, from *trees.Bound, may func(*trees.BoundCheck) bool) []string {
	l := looker{graph: g, may: may, seen: map[string]int{}, boxes: map[string]bool{}}
	l.look(from, stepsAhead)
	var out []string
	for _, e := range g.Plant.Enclosures {
		if l.boxes[e.ID] && !e.Outdoor { // nobody goes out in the rain for what may not be needed
			out = append(out, e.ID)
		}
	}
	return out
}

// looker collects the enclosures that steps reach into.
type looker struct {
	graph *trees.Graph
	may   func(*trees.BoundCheck) bool
	seen  map[string]int
	boxes map[string]bool
}

// look takes in a step and those up to depth behind it.
func (l *looker) look(s *trees.Bound, depth int) {
	if depth <= l.seen[s.Path] {
		return
	}
	l.seen[s.Path] = depth
	if !l.may(s.Check) {
		l.instead(s, depth-1)
		return
	}
	if s.Check.Need.Power == trees.Live {
		for _, e := range s.Check.Need.Enclosures {
			l.boxes[e] = true
		}
	}
	for _, br := range s.Branches {
		next := l.graph.Steps[br.To.Go]
		if next == nil {
			continue
		}
		left := depth - 1
		if next.Group == s.Group && s.Group != l.graph.Symptom.ID {
			left = depth
		}
		l.look(next, left)
	}
}

// instead goes past a step that these hands may not take: no cover comes off for it.
func (l *looker) instead(s *trees.Bound, depth int) {
	if next := l.graph.Steps[s.Otherwise.Go]; next != nil {
		l.look(next, depth)
	}
}
