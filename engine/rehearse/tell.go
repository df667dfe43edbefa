package rehearse

import (
	"fmt"
	"slices"
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// Tell walks every case that the authors of a set told, as the engineer with
// this kit and past the same guard, with the readings of the case in place of a
// simulation. It gives what came out otherwise, each problem with its place. A
// kit without instruments stands for the default kit. The rules are those of gb:
// cases are told with its voltages.
func Tell(set *trees.Set, kit measurements.Kit) strict.Problems {
	return tell(set, Options{Kit: kit}.filled(), reached{map[strict.Pos]bool{}, map[string]bool{}})
}

// tell does what Tell does, and notes what the cases come to.
func tell(set *trees.Set, o Options, got reached) strict.Problems {
	j := set.Jurisdictions[o.Jurisdiction]
	if j == nil {
		return nil
	}
	t := &telling{rehearsal: &rehearsal{set: set.Filled(j), jurisdiction: j, o: o}, walkers: map[string]*walker{}, reached: got}
	for _, c := range set.Cases {
		t.tell(c)
	}
	return t.problems.Sorted()
}

// telling is the walking of cases; what a walker learns of a plant serves all
// cases on it.
type telling struct {
	*rehearsal
	walkers  map[string]*walker // by plant; nil: it cannot be put together
	reached  reached
	problems strict.Problems
}

func (t *telling) problem(at strict.Pos, format string, args ...any) {
	t.problems = append(t.problems, strict.Problem{File: at.File, Line: at.Line, Col: at.Col, Message: fmt.Sprintf(format, args...)})
}

// tell walks one case and compares.
func (t *telling) tell(c *trees.Case) {
	w := t.walker(c.Plant.Value)
	if w == nil {
		return // vet has told what is wrong with the plant
	}
	graph, problems := t.set.Bind(c.Symptom.Value, w.bench.plant)
	switch {
	case len(problems) > 0:
		return
	case graph == nil:
		t.problem(c.Plant.Pos, "the tree of %q does not serve the plant %q", c.Symptom.Value, c.Plant.Value)
		return
	}
	tale := newTale(t, c, graph)
	w.host.sub, w.host.known, w.host.proved = tale, map[asked]answered{}, map[string]found{}
	e := w.walk(graph)
	if tale.stuck {
		return // told where it is written
	}
	tale.unread(w.hops)
	t.reached.hops(w.hops)
	t.reached.end(e)
	if t.path(c, w.hops) {
		t.end(c, e)
	}
	for _, why := range w.unsafe {
		t.problem(c.Pos, "the case %q: unsafe: %s", c.ID, why)
	}
	tale.untaken()
}

// walker finds or makes the engineer of a plant.
func (t *telling) walker(plant string) *walker {
	if w, known := t.walkers[plant]; known {
		return w
	}
	t.walkers[plant] = nil
	p, problems := t.set.Compose(plant)
	if len(problems) > 0 {
		return nil
	}
	b := &bench{plant: p}
	w := newWalker(t.rehearsal, &host{bench: b}, &pass{b, Engineer(t.o.Kit), ""}, newJudge(t.set, t.jurisdiction, p))
	t.walkers[plant] = w
	return w
}

// path compares the steps that were walked with those that are told.
func (t *telling) path(c *trees.Case, hops []hop) bool {
	walked, last := []string{}, c.Symptom.Value
	for _, h := range hops {
		if h.step == nil || h.way != nil {
			continue
		}
		at := strings.TrimPrefix(h.step.Path, c.Symptom.Value+"/")
		n := len(walked)
		walked = append(walked, at)
		switch {
		case n >= len(c.Path):
			t.problem(c.Path[len(c.Path)-1].Pos, "the case %q goes on to the step %q after %s; expected it to end there", c.ID, at, last)
			return false
		case c.Path[n].Value != at:
			t.problem(c.Path[n].Pos, "the case %q comes to the step %q, after %s; expected %q", c.ID, at, last, c.Path[n].Value)
			return false
		}
		last = stepLine(h)
	}
	if n := len(walked); n < len(c.Path) {
		t.problem(c.Path[n].Pos, "the case %q ends after %s; expected the step %q", c.ID, last, c.Path[n].Value)
		return false
	}
	return true
}

// end compares where the walk ended with what is told.
func (t *telling) end(c *trees.Case, e end) {
	var want, have []string
	var at strict.Pos
	switch {
	case len(c.Ends.Causes) > 0:
		at = c.Ends.Causes[0].Pos
		for _, one := range c.Ends.Causes {
			want = append(want, one.Value)
		}
		for _, one := range e.to.Causes {
			have = append(have, one.ID)
		}
	case c.Ends.Refer.Value != "":
		at, want = c.Ends.Refer.Pos, []string{c.Ends.Refer.Value}
		if e.to.Refer != nil {
			have = []string{e.to.Refer.ID}
		}
	default:
		at, want, have = c.Ends.Pass.Pos, []string{c.Ends.Pass.Value}, []string{e.to.Pass}
	}
	slices.Sort(want)
	slices.Sort(have)
	if !slices.Equal(want, have) {
		t.problem(at, "the case %q ends at: %s%s; expected %s", c.ID, endWords(e), whyNot(e), spelling.Quoted(want))
	}
}

func whyNot(e end) string {
	if e.why == "" {
		return ""
	}
	return ", because " + e.why
}
