package rehearse

import "faultwalk/trees"

// second takes the second reading of the single cause that a walk ended at, as a
// job offers it, and gives why it speaks against that cause; empty where it does
// not, decides nothing or is not for these hands.
func (w *walker) second(e end) (against string) {
	if len(e.to.Causes) != 1 || e.to.Causes[0].Confirm == nil {
		return ""
	}
	c := e.to.Causes[0].Confirm
	if w.now[c.Check.ID] == nil {
		if why := w.until(c.Check, c.If.Value); why != "" {
			w.note("the second reading " + c.Check.ID + " is not taken: " + why)
			return ""
		}
	}
	r := w.now[c.Check.ID]
	says := "the second reading " + c.Check.ID + " = " + r.String()
	switch holds, decided := w.judge.holds(c.If.Value, r, w.used(c.Check)); {
	case !decided:
		says += " decides nothing"
	case holds:
		says += " fits"
	default:
		says += " speaks against " + e.to.Causes[0].ID + ", which wants " + c.If.Value
		against = says
	}
	w.note(says)
	return against
}

// until takes a check that is no step of a tree until a condition on it is
// decided, or it was taken as often as it may be. It says why it cannot be
// taken.
func (w *walker) until(c *trees.BoundCheck, condition string) (why string) {
	for {
		r := w.begun(w.lacking(c))
		if refusal := w.reach(nil, r); refusal != nil {
			return refusal.Why
		}
		decided := func() bool {
			_, ok := w.judge.holds(condition, r, w.used(c))
			return r.check == c && ok
		}
		if err := w.read(r, decided); err != nil {
			return err.Error()
		}
		if r.check == c && (decided() || !w.another(r)) {
			return ""
		}
	}
}

// note adds a line to the trace that belongs to no step.
func (w *walker) note(what string) { w.hop(hop{branch: -1, note: what}) }
