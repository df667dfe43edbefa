package safety

import (
	"fmt"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// Guard says whether a thing may be done now; nil means yes. It is the only
// judge: no face, plan or tree decides that anywhere else.
func Guard(ctx Context, w *World, t Thing) *Refusal {
	if t.Act != nil {
		return guardAct(ctx, w, t)
	}
	return guardCheck(ctx, w, t)
}

// guardAct judges an act: is there such a thing, may these hands, does a find
// stand against it, and is the plant ready for it.
func guardAct(ctx Context, w *World, t Thing) *Refusal {
	rule, ok := rules[t.Act.Do]
	if !ok {
		return &Refusal{Why: fmt.Sprintf("there is no act %q", t.Act.Do), Kind: Unknown}
	}
	if !exists(ctx.Plant, *t.Act) {
		return &Refusal{Why: fmt.Sprintf("there is nothing called %q to %s on this plant", t.Act.On, t.Act.Do), Kind: Unknown}
	}
	for _, c := range capabilities(ctx.Plant, *t.Act) {
		if r := May(ctx, c); r != nil {
			return r
		}
	}
	if r := halted(w, t); r != nil {
		return r
	}
	if r := mayWork(ctx, w, *t.Act); r != nil {
		return r
	}
	return rule(ctx, w, t)
}

// rules are the acts, each with what the plant must be like.
var rules = map[string]func(Context, *World, Thing) *Refusal{
	journal.ActSwitchOff: mayOff,
	journal.ActLock:      mayLock,
	journal.ActUnlock:    mayRestore,
	journal.ActSwitchOn:  mayRestore,
	journal.ActOpen:      mayOpen,
	journal.ActClose:     mayClose,
	journal.ActProve:     mayProve,
	journal.ActUnplug:    mayPlug,
	journal.ActRefit:     mayPlug,
	journal.ActCall:      anytime,
	journal.ActRelease:   anytime,
	journal.ActBack:      anytime,
	journal.ActWait:      mayWait,
}

// exists says whether the plant has what the act is done to. A wait may be on
// the plant as a whole, or on the drive of its outdoor unit.
func exists(p *trees.Plant, a journal.Act) bool {
	switch a.Do {
	case journal.ActSwitchOff, journal.ActLock, journal.ActUnlock, journal.ActSwitchOn:
		return p.Device(a.On) != nil
	case journal.ActOpen, journal.ActClose, journal.ActProve:
		return p.Enclosure(a.On) != nil
	case journal.ActUnplug, journal.ActRefit:
		return p.Plug(a.On) != nil
	}
	e := p.Enclosure(a.On)
	return p.Call(a.On) != nil || a.Do == journal.ActWait && (a.On == "" || e != nil && e.Unit)
}

// capabilities are what the hands must be allowed to do for an act.
func capabilities(p *trees.Plant, a journal.Act) []string {
	box := a.On
	if a.Do == journal.ActUnplug || a.Do == journal.ActRefit {
		box = p.Plug(a.On).In
	}
	all := []string{capability(p, a)}
	if e := p.Enclosure(box); e != nil && e.Unit && p.Device(a.On) == nil && a.Do != journal.ActWait {
		all = append(all, "outdoor-unit")
	}
	return all
}

// capability is what the hands must be allowed to do for an act, wherever it is done.
func capability(p *trees.Plant, a journal.Act) string {
	box := a.On
	switch a.Do {
	case journal.ActSwitchOff, journal.ActSwitchOn:
		return "switches"
	case journal.ActLock, journal.ActUnlock, journal.ActProve:
		return "covers"
	case journal.ActCall, journal.ActRelease, journal.ActBack, journal.ActWait:
		return "controls"
	case journal.ActUnplug, journal.ActRefit:
		box = p.Plug(a.On).In
	}
	if mains(p, box) {
		return "covers"
	}
	return "sensor-plug"
}

// mains says whether an enclosure holds mains.
func mains(p *trees.Plant, enclosure string) bool {
	e := p.Enclosure(enclosure)
	return e != nil && e.Mains
}

// halted refuses what a voltage found while proving leaves no room for. What
// remains is stopping the demand, switching off and locking, one repeat of the
// same pair under load where that is allowed, and proving the same enclosure
// again with more isolated. A second find leaves no repeat and no proof.
func halted(w *World, t Thing) *Refusal {
	f := w.Found
	if f == nil {
		return nil
	}
	if t.Act != nil {
		switch t.Act.Do {
		case journal.ActSwitchOff, journal.ActLock, journal.ActRelease, journal.ActWait:
			return nil
		case journal.ActOpen: // seen to be off still: no hand goes in
			if w.Enclosures[t.Act.On].Open == Unsure {
				return nil
			}
		case journal.ActProve:
			if w.Finds < 2 && t.Act.On == f.Enclosure && (w.more() || w.repeats(t.Act.On, t.Form)) {
				return nil
			}
		}
	}
	r := &Refusal{Kind: Halt, Why: fmt.Sprintf("%s while proving %s: hands out. Find the supply it comes from, switch it off and lock it, then prove again", f.words(), words(w.plant, f.Enclosure))}
	if w.Finds > 1 || len(Candidates(w.plant, w)) == 0 && !w.more() {
		r.Why = fmt.Sprintf("%s while proving %s, and nothing explains it: hands out, everything stays off and locked", f.words(), words(w.plant, f.Enclosure))
		r.Referral = voltageFound
	}
	return r
}

// words says what was met.
func (f *Found) words() string {
	if f.Lit {
		return "the controller's screen was lit"
	}
	return fmt.Sprintf("%s read %.0f V", f.Line, f.Volts)
}

// words names an enclosure as people say it.
func words(p *trees.Plant, enclosure string) string {
	if e := p.Enclosure(enclosure); e != nil && e.Words != "" {
		return e.Words
	}
	return enclosure
}
