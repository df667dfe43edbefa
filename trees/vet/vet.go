// Package vet proves trees before anybody walks them. [Vet] is the whole of
// it: every symptom is bound to every plant it serves, every step is proved
// over everything its meter can show, and what is unused, unreachable, unsafe
// or badly worded is reported with its place in the files. [Report.Text] and
// the report as JSON say the same.
package vet

import (
	"path"
	"slices"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/prove"
	"faultwalk/trees/strict"
)

// Limits of one vetting: trees may come from outside and must end soon.
const (
	maxPlants   = 100         // put together
	maxGraphs   = 2_000       // symptoms times plants
	maxSteps    = 500_000     // bound steps of all graphs together
	maxWork     = 200_000_000 // conditions run; about 25 seconds
	maxTables   = 500         // proofs remembered at a time
	maxLeft     = 20          // remarks on what is not looked at
	compileWork = 250         // what making a condition ready takes, in runs of one
)

// Vet proves a set of trees with the instruments of a kit: it gives everything
// found wrong, and what was looked at. Progress, if not nil, is called before
// each graph and once at the end. What nothing uses is reported of the last
// layer alone: whoever lays trees over others did not write those.
func Vet(set *trees.Set, kit measurements.Kit, progress func(done, total int)) Report {
	whole, problems := set.Whole()
	if len(problems) > 0 {
		return Unread(problems)
	}
	if progress == nil {
		progress = func(int, int) {}
	}
	v := newVetting(whole, kit)
	v.compose()
	v.gather()
	v.graphs(progress)
	v.fates()
	v.safetyData()
	v.predicates()
	v.simulation()
	if v.bound() {
		v.unreached()
		v.unused()
	}
	return v.report()
}

// Unread is the report on trees that cannot be read: nothing can be proved of
// them.
func Unread(problems strict.Problems) Report {
	f := newFound()
	for _, p := range problems {
		f.add(p.Pos(), Unreadable, p.Message, "", "")
	}
	return Report{Problems: f.sorted()}
}

// vetting is one run of Vet.
type vetting struct {
	set    *trees.Set
	kit    measurements.Kit
	plants []*trees.Plant // those that could be composed, by id
	own    map[string]bool
	found  *found
	doubts *found // undecided conditions that an else stands behind

	prover  *prove.Prover
	tables  int // made with this prover
	work    int // conditions run
	most    int // of those
	spent   bool
	left    []string // what was not looked at
	edges   trees.Edges
	proofs  map[string]*proof
	readied map[string]prove.Set
	spreads map[string][]*trees.Expectation

	spoken   map[string]phrases      // of each plant's points
	branches map[fateKey]*fate       // whether anything leads to a branch, or a condition can hold
	links    map[string]bool         // cores, earth cores and poles of every plant
	here     map[*trees.Plant]*scope // where the names of a plant's formulas are looked up
	follows  map[*trees.Model]bool   // whether a model asks what drives its parts
	given    map[string][]string     // words that faults give, to settings and to variables named with their part
	used     usage
	unbound  int // graphs that could not be bound
	graphsN  int
	stepsN   int
}

func newVetting(set *trees.Set, kit measurements.Kit) *vetting {
	v := &vetting{set: set, kit: kit, most: maxWork, found: newFound(), doubts: newFound(), prover: prove.New(), edges: trees.Edges{},
		proofs: map[string]*proof{}, readied: map[string]prove.Set{}, spreads: map[string][]*trees.Expectation{},
		spoken: map[string]phrases{}, branches: map[fateKey]*fate{}, used: newUsage(), own: map[string]bool{},
		links: map[string]bool{}, here: map[*trees.Plant]*scope{}, follows: map[*trees.Model]bool{}, given: map[string][]string{}}
	if n := len(set.Layers); n > 0 {
		for file := range set.Layers[n-1].Files {
			v.own[path.Join(set.Layers[n-1].Name, file)] = true
		}
	}
	return v
}

// at records a problem that has nothing to do with one plant.
func (v *vetting) at(pos strict.Pos, kind Kind, message string) {
	v.found.add(pos, kind, message, "", "")
}

// on records a problem met on a plant.
func (v *vetting) on(p *trees.Plant, pos strict.Pos, kind Kind, message string) {
	v.found.add(pos, kind, message, "", p.ID)
}

// leave notes once what is not looked at.
func (v *vetting) leave(what string) {
	if !slices.Contains(v.left, what) && len(v.left) < maxLeft {
		v.left = append(v.left, what)
	}
}

// bound says whether every graph could be bound, so that what was not met is
// truly unused.
func (v *vetting) bound() bool { return v.unbound == 0 && len(v.plants) == len(v.set.Plants) }

func (v *vetting) report() Report {
	r := Report{Graphs: v.graphsN, Steps: v.stepsN, Checks: len(v.set.Checks), Causes: len(v.set.Causes), Cases: len(v.set.Cases),
		Problems: v.found.sorted(), Undecided: v.doubts.sorted()}
	r.LeftOut = v.left
	if !v.bound() {
		r.LeftOut = append(r.LeftOut, "steps nothing leads to and things nothing uses: not every tree could be bound")
	}
	return r
}
