package walk

import (
	"math"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/prove"
)

// MovingVolts is the referral a mains reading that will not stand still leads
// to, wherever it is met.
const MovingVolts = "moving-volts"

// verdict is what a reading means at a step. Without one, touches are the
// branches it could belong to.
type verdict struct {
	verdict bool
	whole   bool // every probe was read
	branch  int
	to      trees.Target
	meaning string
	touches []int
}

// judge says where a reading leads from a step. There is a verdict only if the
// whole interval, widened by the meter's accuracy, lies in one branch, or all
// the branches it touches lead to the same place.
func (j *Job) judge(step *trees.Bound, r *reading) verdict {
	if len(r.check.Probes) == 0 {
		return j.judgeLook(step, r)
	}
	if v, moving := j.moving(step, r); moving {
		return v
	}
	v := verdict{whole: len(r.values) == len(r.check.Probes), branch: -1}
	part, err := j.partition(step, r)
	if err != nil {
		return v
	}
	v.touches = part.Judge(j.box(r), facts(r)...)
	if v.branch, v.verdict = Decides(step, v.touches); v.verdict {
		v.to, v.meaning = step.Branches[v.branch].To, step.Branches[v.branch].Meaning
	}
	return v
}

// Decides gives the branch that a reading takes which touches these branches,
// as the proof of the step has it: the only one, or the first of several that
// all lead to the same place. Otherwise there is no verdict, and -1.
func Decides(step *trees.Bound, touches []int) (branch int, verdict bool) {
	for i, b := range touches {
		if b == prove.Gap || i > 0 && leads(step.Branches[b].To) != leads(step.Branches[touches[0]].To) {
			return -1, false
		}
	}
	if len(touches) == 0 {
		return -1, false
	}
	return touches[0], true
}

func (j *Job) judgeLook(step *trees.Bound, r *reading) verdict {
	i := step.AnswerBranch(r.answer)
	if i < 0 {
		return verdict{whole: true, branch: -1}
	}
	return verdict{verdict: true, whole: true, branch: i, to: step.Branches[i].To, meaning: step.Branches[i].Meaning, touches: []int{i}}
}

// moving finds a mains voltage that wanders: it ends the job, whatever it was
// meant to tell (handbook 5.3), unless the step that is to judge it says itself
// what that means there. The step is nil where none is.
func (j *Job) moving(step *trees.Bound, r *reading) (verdict, bool) {
	if r.check.Quantity != measurements.ACVolts || r.check.Need.Power != trees.Live {
		return verdict{}, false
	}
	if step != nil && step.AsksMoving() {
		return verdict{}, false
	}
	for _, v := range r.values {
		if v.Moving {
			return verdict{verdict: true, whole: true, branch: -1, to: trees.Target{Refer: j.lib.Set.Referrals[MovingVolts]},
				meaning: "the voltage will not stand still"}, true
		}
	}
	return verdict{}, false
}

// stepOf is the step that judges a reading: the one it was taken for, or for one
// given early the first that asks whether it moves. It is nil if there is none.
func (j *Job) stepOf(r *reading) *trees.Bound {
	g := j.mind.graph
	if g == nil {
		return nil
	}
	if step := g.Steps[r.step]; step != nil && step.Check == r.check {
		return step
	}
	if r.purpose != journal.ForEarly {
		return nil
	}
	for _, path := range g.Order {
		if step := g.Steps[path]; step.Check == r.check && step.AsksMoving() {
			return step
		}
	}
	return nil
}

// facts are what is known of a reading beside its values: which of them move.
func facts(r *reading) (out []prove.Fact) {
	for _, p := range r.check.Probes {
		if v, read := r.values[p.As]; read {
			out = append(out, trees.Moves(p, v.Moving))
		}
	}
	return out
}

// partition is the proof table of a step for the modes its readings were taken in.
func (j *Job) partition(step *trees.Bound, r *reading) (*prove.Partition, error) {
	sit, err := j.situation(r)
	if err != nil {
		return nil, err
	}
	set, err := j.lib.Set.BranchSet(step, sit)
	if err != nil {
		return nil, err
	}
	part, _, err := j.prover.Table(set)
	return part, err
}

func (j *Job) situation(r *reading) (trees.Situation, error) {
	sit := trees.Situation{Jurisdiction: j.mains(), Modes: map[string]string{}, Edges: j.edges}
	for as, v := range r.values {
		sit.Modes[as] = v.Mode
	}
	var err error
	sit.Expected, err = j.expectation(r.check)
	return sit, err
}

// expectation computes what a check should give now, from the readings it needs.
func (j *Job) expectation(c *trees.BoundCheck) (*trees.Expectation, error) {
	used := map[string]float64{}
	for as, need := range c.Uses {
		if r := j.mind.now[need.ID]; r != nil {
			for _, v := range r.values {
				used[as] = (v.Low + v.High) / 2
			}
		}
	}
	return j.mind.plant.Expect(c, j.mains(), used)
}

// box gives the reading's intervals, widened; a probe not read yet is left open.
func (j *Job) box(r *reading) []prove.Interval {
	var out []prove.Interval
	for _, p := range r.check.Probes {
		v, ok := r.values[p.As]
		if !ok {
			out = append(out, prove.Interval{Lo: math.NaN(), Hi: math.NaN()})
			continue
		}
		out = append(out, trees.Within(j.widen(r.check.Quantity, v)))
	}
	return out
}

// widen adds the meter's error; a meter no longer known adds none.
func (j *Job) widen(q measurements.Quantity, v journal.Value) measurements.Interval {
	i := measurements.Interval{Lo: v.Low, Hi: v.High}
	if v.Open {
		i = measurements.Interval{Lo: math.Inf(1), Hi: math.Inf(1)}
	}
	r := measurements.Reading{Quantity: q, Value: i, Open: v.Open, Moving: v.Moving, Typed: v.Typed}
	if in, ok := j.kit().Instrument(v.Meter); ok {
		if spec, ok := in.Spec(measurements.Mode(v.Mode), q); ok {
			return spec.Widen(r)
		}
	}
	return i
}

// healthy says whether a reading is what a healthy plant gives: the check's
// own good verdict. decided is false while that cannot be told.
func (j *Job) healthy(r *reading) (good, decided bool) {
	return j.holds(r, r.check.Good.Value)
}

// holds judges a condition on a check's readings alone.
func (j *Job) holds(r *reading, condition string) (holds, decided bool) {
	if len(r.check.Probes) == 0 {
		return trees.AnswerHolds(condition, r.answer), true
	}
	sit, err := j.situation(r)
	if err != nil {
		return false, false
	}
	set, err := j.lib.Set.Holding(r.check, condition, sit)
	if err != nil {
		return false, false
	}
	part, _, err := j.prover.Table(set)
	if err != nil {
		return false, false
	}
	touches := part.Judge(j.box(r), facts(r)...)
	return len(touches) == 1 && touches[0] == 0, len(touches) == 1
}
