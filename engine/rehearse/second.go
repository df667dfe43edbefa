package rehearse

import "faultwalk/trees"

// second takes the second reading of the single cause that a walk ended at, as a
// job offers it, and gives why it speaks against that cause; empty where it does
// not, decides nothing or is not for these hands.
func (w *walker) second(e end) (against string) {
	if len(e.to.Causes) != 1 || e.to.Causes[0].Confirm == nil {
		return ""
	}
	cause := e.to.Causes[0]
	if w.now[cause.Confirm.Check.ID] == nil && !w.takeSecond(cause.Confirm) {
		return ""
	}
	r := w.now[cause.Confirm.Check.ID]
	holds, decided := w.judge.holds(cause.Confirm, r, w.used(r.check))
	says := "the second reading " + r.check.ID + " = " + r.String()
	switch {
	case !decided:
		w.note(says + " decides nothing")
	case holds:
		w.note(says + " fits")
	default:
		against = says + " speaks against " + cause.ID + ", which wants " + cause.Confirm.If.Value
		w.note(against)
	}
	return against
}

// takeSecond takes a second reading until it decides; false where it cannot be.
func (w *walker) takeSecond(c *trees.BoundConfirm) bool {
	for {
		r := w.begun(w.lacking(c.Check))
		if refusal := w.reach(nil, r); refusal != nil {
			w.note("the second reading " + r.check.ID + " is not taken: " + refusal.Why)
			return false
		}
		decided := func() bool {
			_, ok := w.judge.holds(c, r, w.used(r.check))
			return r.check == c.Check && ok
		}
		if err := w.read(r, decided); err != nil {
			w.note("the second reading is not taken: " + err.Error())
			return false
		}
		if r.check == c.Check && (decided() || !w.another(r)) {
			return true
		}
	}
}

// note adds a line to the trace that belongs to no step.
func (w *walker) note(what string) { w.hop(hop{branch: -1, note: what}) }
