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
	boxes := map[string]bool{}
	seen := map[string]int{}
	j.look(a.step, stepsAhead, seen, boxes)
	var out []string
	for _, e := range j.mind.plant.Enclosures {
		if boxes[e.ID] && !e.Outdoor { // nobody goes out in the rain for what may not be needed
			out = append(out, e.ID)
		}
	}
	return out
}

// look collects the enclosures of a step and of those up to depth behind it.
func (j *Job) look(s *trees.Bound, depth int, seen map[string]int, boxes map[string]bool) {
	if depth <= seen[s.Path] {
		return
	}
	seen[s.Path] = depth
	if safety.Ever(j.context(), j.world, safety.OfCheck(s.Check, j.modes(s.Check)...)) != nil {
		j.instead(s, depth-1, seen, boxes)
		return
	}
	for _, e := range s.Check.Need.Enclosures {
		boxes[e] = true
	}
	for _, br := range s.Branches {
		next := j.mind.graph.Steps[br.To.Go]
		if next == nil {
			continue
		}
		left := depth - 1
		if next.Group == s.Group && s.Group != j.mind.graph.Symptom.ID {
			left = depth
		}
		j.look(next, left, seen, boxes)
	}
}

// instead goes past a step that these hands may not take: no cover comes off for it.
func (j *Job) instead(s *trees.Bound, depth int, seen map[string]int, boxes map[string]bool) {
	if next := j.mind.graph.Steps[s.Otherwise.Go]; next != nil {
		j.look(next, depth, seen, boxes)
	}
}
