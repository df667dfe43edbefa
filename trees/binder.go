package trees

import (
	"fmt"

	"faultwalk/trees/strict"
)

// Limits of one graph: routines that use routines multiply, and trees may come
// from outside.
const (
	maxEntries = 20_000 // steps, each use of a routine counting its own
	maxUseDeep = 16     // routines inside one another
	maxLinks   = 64     // of a chain that is split
)

type binder struct {
	set      *Set
	plant    *Plant
	graph    *Graph
	problems strict.Problems
	*common
	entries  map[string]*Target          // where a step really begins; nil while it is being bound
	steps    map[string]map[string]*Step // of each symptom and routine, by id
	held     map[string]bool             // predicates known already
	stopping map[*Check][]*Stop          // stops that judge a check's readings
	full     bool                        // a limit was met: nothing more is bound
}

// common is what the trees of one plant have in common, by instance text.
type common struct {
	checks map[string]*BoundCheck
	causes map[string]*BoundCause
}

func newCommon() *common {
	return &common{checks: map[string]*BoundCheck{}, causes: map[string]*BoundCause{}}
}

func newBinder(s *Set, sym *Symptom, plant *Plant, c *common) *binder {
	return &binder{set: s, plant: plant, common: c,
		entries: map[string]*Target{}, steps: map[string]map[string]*Step{}, held: map[string]bool{}, stopping: map[*Check][]*Stop{},
		graph: &Graph{Symptom: sym, Plant: plant, checks: map[string]*BoundCheck{}, causes: map[string]*BoundCause{}, Steps: map[string]*Bound{}, Visited: map[*Step]bool{}, Held: map[*Step]bool{}}}
}

// takes notes a check as one of the graph, with those it needs.
func (b *binder) takes(c *BoundCheck) *BoundCheck {
	if c == nil || b.graph.checks[c.ID] == c {
		return c
	}
	b.graph.checks[c.ID] = c
	for _, need := range c.Uses {
		b.takes(need)
	}
	return c
}

// names notes a cause as one of the graph, with the checks that prove it.
func (b *binder) names(c *BoundCause) *BoundCause {
	b.graph.causes[c.ID] = c
	if c.Confirm != nil {
		b.takes(c.Confirm.Check)
	}
	b.takes(c.Retest)
	return c
}

// scope is where names are looked up: the symptom, or one use of a routine.
type scope struct {
	prefix string
	steps  map[string]*Step
	params []Param
	args   map[string]string
	exits  map[string]*Branch
	outer  *scope
	group  string
	deep   int // routines around it
}

// named gives the steps of a symptom or a routine by id.
func (b *binder) named(kind, id string, all []*Step) map[string]*Step {
	key := kind + " " + id
	if b.steps[key] == nil {
		b.steps[key] = byID(all, func(st *Step) string { return st.ID })
	}
	return b.steps[key]
}

func (b *binder) problem(pos strict.Pos, format string, args ...any) {
	m := fmt.Sprintf(format, args...)
	if b.plant != nil {
		m += fmt.Sprintf(" (on %s)", b.plant.ID)
	}
	b.problems = append(b.problems, strict.Problem{File: pos.File, Line: pos.Line, Col: pos.Col, Message: m})
	b.full = b.full || len(b.problems) >= maxProblems
}

// overfull stops the binding at a limit, with one problem.
func (b *binder) overfull(pos strict.Pos, format string, args ...any) {
	if !b.full {
		b.full = true
		b.problem(pos, format, args...)
	}
}
