package safety

import (
	"fmt"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// Available says whether a thing could be done by these hands with these
// instruments, as far as is known: nil means there is a way from here. It goes
// the whole way on a copy of the world, past the same guard.
func Available(ctx Context, w *World, t Thing) *Refusal {
	if r := mayEver(ctx, w, t); r != nil {
		return r
	}
	after, r := Rehearse(ctx, w, Plan(ctx, w, t, nil))
	if r != nil {
		return r
	}
	return Guard(ctx, after, t)
}

// Rehearse does acts on a copy of the world, each past the guard, proofs with
// nothing found. It gives the world after them, or the first refusal. An act
// that could not be done before is refused.
func Rehearse(ctx Context, w *World, acts []journal.Act) (*World, *Refusal) {
	c := w.Clone()
	for _, a := range acts {
		if w.Cannot[Key(a)] {
			return c, impossible(ctx.Plant, a)
		}
		if r := Guard(ctx, c, OfAct(a)); r != nil {
			return c, r
		}
		c.assume(a)
	}
	return c, nil
}

// impossible is the refusal of what was found not to be possible.
func impossible(p *trees.Plant, a journal.Act) *Refusal {
	r := &Refusal{Why: fmt.Sprintf("it could not be done before: %s, %s", a.Do, p.Words(a.On)), Referral: beyondHands, Kind: Never}
	switch a.Do {
	case journal.ActSwitchOff, journal.ActLock:
		r.Referral = noIsolation
	case journal.ActProve:
		r.Referral = testerFailed
	}
	return r
}
