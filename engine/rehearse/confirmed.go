package rehearse

import (
	"fmt"
	"strings"
)

// proved takes in what was read of no walk: the proofs of repairs, and the second
// readings with their rivals in the plant.
func (r *Report) proved(b *bench) {
	r.Proofs += b.proofs.taken
	r.Unproved = append(r.Unproved, b.proofs.unproved...)
	r.Failed = append(r.Failed, b.proofs.failed...)
	for _, p := range b.pieces {
		r.Opposed += p.opposed.taken
		r.Silenced = append(r.Silenced, p.opposed.silent...)
		r.Failed = append(r.Failed, p.opposed.failed...)
	}
}

// confirm counts what came of the second readings.
func (r *Report) confirm() {
	r.Second = map[Second]int{}
	for _, c := range r.Cases {
		if c.second == Unsimulated {
			r.Failed = append(r.Failed, Failed{c.Plant, c.end.to.Causes[0].Confirm.Check.ID, c.Fault, c.secondWhy})
		}
		if c.second != NoSecond && c.Verdict == Exact {
			r.Second[c.second]++
		}
	}
}

// seconds writes how many of the second readings came to what, a line each.
func (r *Report) seconds(b *strings.Builder) {
	for _, how := range []Second{Fits, Before, Deciding, Undecided, Refused, Unsimulated, Unconfirmed} {
		if n := r.Second[how]; n > 0 || how == Deciding {
			fmt.Fprintf(b, "second readings that %s: %d\n", how, n)
		}
	}
}

// proofGates are what the readings have to hold that prove a cause or a repair.
// A fault of the sweep may be any cause of its core, and is nobody's rival.
func (o Options) proofGates(r *Report) []Gate {
	out := []Gate{none("the deciding reading is not its own second", r.Second[Deciding]),
		{"what proves a repair can be simulated", fmt.Sprintf("%s taken, %d failed", count(r.Proofs, "proof"), len(r.Failed)), len(r.Failed) == 0}}
	if o.Sweep {
		return out
	}
	return append(out, Gate{"second readings speak against their rivals", fmt.Sprintf("%d of %d do not", len(r.Silenced), r.Opposed), len(r.Silenced) == 0})
}
