package rehearse

import (
	"math/rand/v2"

	"faultwalk/engine/walk"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// walker walks the trees of one plant, by one pair of hands. It is used by one
// goroutine; what it learns of the ways and the proofs serves all faults.
type walker struct {
	*host
	person    Person
	kit       measurements.Kit // in these hands
	ground    *ground
	judge     *judge
	track     *track
	forgotten string // a supply that is left on; empty: none
	calls     []map[string]bool
	options   map[string][][]walk.Option
	noise     *rand.Rand

	walkState
}

// walkState is what belongs to one walk.
type walkState struct {
	graph    *trees.Graph
	at       *spot
	now      map[string]*reading
	hops     []hop
	node     *node
	minutes  float64
	moved    int
	halts    int
	unsafe   []string
	believed map[string]bool // devices of the forgotten supply thought to be off when volts were found
	why      string
}

// hop is one thing that happened in a walk.
type hop struct {
	step   *trees.Bound
	way    *way
	read   *reading
	branch int    // of the step; -1: none
	note   string // why there was no reading, or what was found
}

// end is where a walk ended.
type end struct {
	to  trees.Target
	why string
}

// maxSteps stops a walk that a tree leads round for ever; a bound tree cannot.
const maxSteps = 500

// walk follows a tree from its start to an end.
func (w *walker) walk(g *trees.Graph) end {
	w.walkState = walkState{graph: g, at: w.ground.first, now: map[string]*reading{}, node: w.track.start}
	to := g.Start
	for n := 0; to.Go != ""; n++ {
		step := g.Steps[to.Go]
		if step == nil || n == maxSteps {
			return end{why: "the tree leads nowhere from " + to.Go}
		}
		to = w.step(step)
	}
	return end{to, w.why}
}

// step takes one step and says where it leads.
func (w *walker) step(step *trees.Bound) trees.Target {
	for {
		if r := w.now[step.Check.ID]; r != nil {
			if to, decided := w.follow(step, r); decided {
				return to
			}
		}
		if to, ended := w.take(step); ended {
			return to
		}
	}
}

// follow goes where a reading leads, or past the step when it was taken as
// often as it may be and decides nothing.
func (w *walker) follow(step *trees.Bound, r *reading) (trees.Target, bool) {
	if to, moving := w.moving(step, r); moving {
		w.hop(hop{step: step, read: r, branch: -1, note: "the voltage will not stand still"})
		return to, true
	}
	if b, ok := w.judge.decides(step, r, w.used(r.check)); ok {
		w.hop(hop{step: step, read: r, branch: b})
		return step.Branches[b].To, true
	}
	if r.whole() && !w.another(r) {
		return w.pass(step, r, undecided(r)), true
	}
	return trees.Target{}, false
}

// undecided says why a reading that was taken leads nowhere.
func undecided(r *reading) string {
	if len(r.check.Probes) == 0 && r.answer == "" {
		return "nobody could tell by looking"
	}
	return "the reading does not decide: " + r.String()
}

// moving finds a mains voltage that wanders: it ends a job wherever it is met,
// unless the step says itself what that means there.
func (w *walker) moving(step *trees.Bound, r *reading) (trees.Target, bool) {
	if !r.moving || step.AsksMoving() || r.check.Quantity != measurements.ACVolts || r.check.Need.Power != trees.Live {
		return trees.Target{}, false
	}
	return trees.Target{Refer: w.judge.set.Referrals[walk.MovingVolts]}, true
}

// pass goes on from a step that gave nothing.
func (w *walker) pass(step *trees.Bound, r *reading, why string) trees.Target {
	w.hop(hop{step: step, read: r, branch: -1, note: why})
	if to := step.Otherwise; to.Go != "" || len(to.Causes) > 0 || to.Refer != nil || to.Pass != "" {
		return to
	}
	w.why = why
	return trees.Target{}
}

// take goes to where a step's next reading may be taken and takes it. It ends
// the step where that is not for these hands.
func (w *walker) take(step *trees.Bound) (trees.Target, bool) {
	r := w.begun(w.lacking(step.Check))
	if refusal := w.reach(step, r); refusal != nil {
		return w.beyond(step, refusal)
	}
	enough := func() bool {
		if r.check != step.Check {
			return false
		}
		_, decided := w.judge.decides(step, r, w.used(r.check))
		return decided
	}
	if err := w.read(r, enough); err != nil {
		w.why = err.Error()
		return trees.Target{}, true
	}
	return trees.Target{}, false
}

func (w *walker) hop(h hop) { w.hops = append(w.hops, h) }
