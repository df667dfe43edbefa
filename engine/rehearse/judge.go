package rehearse

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"faultwalk/engine/walk"
	"faultwalk/trees"
	"faultwalk/trees/prove"
)

// judge says where a reading leads, by the same proof and the same rule as a
// job, and remembers the proof tables. It is used by one goroutine.
type judge struct {
	set          *trees.Set
	jurisdiction *trees.Jurisdiction
	plant        *trees.Plant
	prover       *prove.Prover
	edges        trees.Edges
	tables       map[tableKey]*prove.Partition
	expected     map[string]*trees.Expectation
	proved       int
}

// tableKey is a step, or a condition on a check, in some modes.
type tableKey struct {
	of            any
	modes         string
	low, nom, top float64
}

// provedAtMost bounds what a judge remembers: expectations that follow from
// noisy readings give tables that are never met again.
const provedAtMost = 4000

func newJudge(set *trees.Set, j *trees.Jurisdiction, p *trees.Plant) *judge {
	return &judge{set: set, jurisdiction: j, plant: p, prover: prove.New(), edges: trees.Edges{},
		tables: map[tableKey]*prove.Partition{}, expected: map[string]*trees.Expectation{}}
}

// decides gives the branch of a step that a reading takes, as far as it is read.
func (j *judge) decides(step *trees.Bound, r *reading, used map[string]float64) (branch int, verdict bool) {
	if len(r.check.Probes) == 0 {
		b := step.AnswerBranch(r.answer)
		return b, b >= 0 && r.answer != ""
	}
	table := j.table(step, r, used, func(sit trees.Situation) (prove.Set, error) { return j.set.BranchSet(step, sit) })
	if table == nil {
		return -1, false
	}
	return walk.Decides(step, table.Judge(r.box(), r.facts()...))
}

// holds says whether a reading is as a condition has it, if it decides that.
func (j *judge) holds(condition string, r *reading, used map[string]float64) (holds, decided bool) {
	if len(r.check.Probes) == 0 {
		return trees.AnswerHolds(condition, r.answer), r.answer != ""
	}
	of := condition + "\n" + r.check.ID
	table := j.table(of, r, used, func(sit trees.Situation) (prove.Set, error) { return j.set.Holding(r.check, condition, sit) })
	if table == nil {
		return false, false
	}
	touches := table.Judge(r.box(), r.facts()...)
	return len(touches) == 1 && touches[0] == 0, len(touches) == 1
}

// table proves the branches of a step, or the condition of a second reading, for
// the modes of a reading and what is expected of it; nil where that cannot be.
func (j *judge) table(of any, r *reading, used map[string]float64, in func(trees.Situation) (prove.Set, error)) *prove.Partition {
	e, err := j.expect(r.check, used)
	if err != nil {
		return nil
	}
	key := tableKey{of: of, modes: r.modes()}
	if e != nil {
		key.low, key.nom, key.top = e.Low, e.Nominal, e.High
	}
	if t, known := j.tables[key]; known {
		return t
	}
	j.forget()
	t := j.prove(r, e, in)
	j.tables[key] = t
	return t
}

func (j *judge) prove(r *reading, e *trees.Expectation, in func(trees.Situation) (prove.Set, error)) *prove.Partition {
	sit := trees.Situation{Jurisdiction: j.jurisdiction, Expected: e, Modes: map[string]string{}, Edges: j.edges}
	for i, p := range r.check.Probes {
		if r.values[i].read {
			sit.Modes[p.As] = r.values[i].mode
		}
	}
	set, err := in(sit)
	if err != nil {
		return nil
	}
	t, _, err := j.prover.Table(set)
	if err != nil {
		return nil
	}
	return t
}

// forget drops everything once too much is remembered.
func (j *judge) forget() {
	if j.proved++; j.proved%provedAtMost == 0 {
		j.prover, j.tables, j.expected = prove.New(), map[tableKey]*prove.Partition{}, map[string]*trees.Expectation{}
	}
}

// expect computes what a check should give, from the readings it needs.
func (j *judge) expect(c *trees.BoundCheck, used map[string]float64) (*trees.Expectation, error) {
	if c.Expect.Value == "" {
		return nil, nil
	}
	key := c.ID
	for _, as := range slices.Sorted(maps.Keys(used)) {
		key += fmt.Sprintf("|%s %x", as, math.Float64bits(used[as]))
	}
	if e, known := j.expected[key]; known {
		return e, nil
	}
	e, err := j.plant.Expect(c, j.jurisdiction, used)
	if err == nil {
		j.expected[key] = e
	}
	return e, err
}
