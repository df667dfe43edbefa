package rehearse

import (
	"slices"

	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// Second is what came of the second reading of the single cause that a walk
// ended at.
type Second string

// What came of a second reading. The words end a line that counts them.
const (
	NoSecond    Second = ""                      // there is no single cause
	Unconfirmed Second = "are written nowhere"   // its cause has none on this plant
	Fits        Second = "were taken"            // and bears its cause out
	Before      Second = "were read on the way"  // and bears its cause out
	Deciding    Second = "are what decided"      // so that there is no second fact
	Against     Second = "speak against it"      // it contradicts its cause
	Undecided   Second = "decide nothing"        // for or against
	Refused     Second = "are not for the hands" // that walked
	Unsimulated Second = "cannot be simulated"
)

// second takes the second reading of the single cause that a walk ended at, as a
// job offers it. It says what came of it, and why where that speaks against the
// cause or cannot be simulated.
func (w *walker) second(e end) (how Second, why string) {
	if len(e.to.Causes) != 1 {
		return NoSecond, ""
	}
	cause := e.to.Causes[0]
	c := cause.Confirm
	if c == nil {
		return Unconfirmed, ""
	}
	name := "the second reading " + c.Check.ID
	switch known := w.now[c.Check.ID] != nil; {
	case known && w.decidedBy(c.Check):
		how = Deciding
	case known:
		how = Before
	default:
		how = Fits
		if refusal, err := w.until(c.Check, c.If.Value); err != nil {
			return Unsimulated, err.Error()
		} else if refusal != nil {
			w.note(name + " is not taken: " + refusal.Why)
			return Refused, ""
		}
	}
	says := name + " = " + w.now[c.Check.ID].String()
	switch holds, decided := w.holds(c); {
	case !decided:
		says += " decides nothing"
		if how != Deciding {
			how = Undecided
		}
	case holds:
		says += " fits"
	default:
		says += " speaks against " + cause.ID + ", which wants " + c.If.Value
		how, why = Against, says
	}
	w.note(says)
	return how, why
}

// holds says whether a second reading that was taken bears its cause out, if it
// decides that.
func (w *walker) holds(c *trees.BoundConfirm) (holds, decided bool) {
	return w.judge.holds(c.If.Value, w.now[c.Check.ID], w.used(c.Check))
}

// decidedBy says whether a check is what ended the walk: the last that a branch
// was taken by.
func (w *walker) decidedBy(c *trees.BoundCheck) bool {
	for _, h := range slices.Backward(w.hops) {
		if h.step != nil && h.read != nil && h.branch >= 0 {
			return h.read.check.ID == c.ID
		}
	}
	return false
}

// until takes a check that is no step of a tree until a condition on it is
// decided, or it was taken as often as it may be. It says why it is not for
// these hands, or that the simulation fails.
func (w *walker) until(c *trees.BoundCheck, condition string) (*safety.Refusal, error) {
	for {
		r := w.begun(w.lacking(c))
		if refusal := w.reach(nil, r); refusal != nil {
			return refusal, nil
		}
		decided := func() bool {
			_, ok := w.judge.holds(condition, r, w.used(c))
			return r.check == c && ok
		}
		if err := w.read(r, decided); err != nil {
			return nil, err
		}
		if r.check == c && (decided() || !w.another(r)) {
			return nil, nil
		}
	}
}

// note adds a line to the trace that belongs to no step.
func (w *walker) note(what string) { w.hop(hop{branch: -1, note: what}) }
