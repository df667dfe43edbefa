package rehearse

import "fmt"

// Gate is something that a rehearsal has to hold, and whether it does.
type Gate struct {
	Name  string `json:"gate"`
	Found string `json:"found"`
	Holds bool   `json:"holds"`
}

// The gates, as shares of all cases but those passed on.
const (
	leastExact    = 0.85 // of the written faults, by count and by weight
	leastFound    = 0.95 // exact or at a group that stands
	mostWrongly   = 0.003
	sweptWrongly  = 0.02
	sweptReferred = 0.12 // and unresolved
)

// gates judges a report by what was rehearsed. Something must have been walked,
// healthy plants show no sign, and nobody may be hurt, ever. No walk may be
// wrong; under noise and in the sweep a few may. The shares of exact ends and of
// what the sweep leaves open are asked of the engineer, of everything written.
func (o Options) gates(r *Report) []Gate {
	f := r.Figures(nil)
	out := []Gate{{"something was walked", fmt.Sprint(f.Walks), f.Walks > 0}, none("healthy plants show no sign", len(r.Signs)),
		none("healthy plants pass what proves a repair", len(r.Unproved))}
	out = append(append(out, o.proofGates(r)...), none("nobody is hurt", f.Of[Unsafe].Cases))
	switch {
	case o.Sweep:
		out = append(out, atMost("wrong", f.Of[Wrong].Share, sweptWrongly))
		if aside := f.Of[Referred].Share + f.Of[Unresolved].Share; o.whole() {
			out = append(out, atMost("referred and unresolved", aside, sweptReferred))
		}
		return out
	case o.Noise > 0:
		out = append(out, atMost("wrong", f.Of[Wrong].Share, mostWrongly))
		if o.thorough() {
			out = append(out, none("every branch is taken or says why not", len(r.Untaken)),
				none("every cause is reached or says why not", len(r.Unreached)), none("what says why not is right", len(r.Untrue)))
		}
		return out
	}
	out = append(out, none("no walk is wrong", f.Of[Wrong].Cases))
	if !o.whole() {
		return out
	}
	out = append(out, none("a fault without a sign says why", r.unexplained()))
	e, g := f.Of[Exact], f.Of[Grouped]
	return append(out, atLeast("exact", e.Share, e.Weighted, leastExact), atLeast("exact or grouped", e.Share+g.Share, e.Weighted+g.Weighted, leastFound))
}

// whole says whether every fault was walked by the engineer, and nothing else.
func (o Options) whole() bool {
	return len(o.Plants) == 0 && len(o.Symptoms) == 0 && o.Fault == "" && !o.Forgotten && len(o.Persons) == 1
}

// thorough says whether everybody walked everything, with draws: then what
// nothing came to has to say why.
func (o Options) thorough() bool {
	return len(o.Plants) == 0 && len(o.Symptoms) == 0 && o.Fault == "" && !o.Sweep && o.Noise > 0 && len(o.Persons) > 1
}

// unexplained counts the faults that show no sign and give no reason for it.
func (r *Report) unexplained() (n int) {
	for _, s := range r.Silent {
		if s.Why == "" {
			n++
		}
	}
	return n
}

// none is a gate that one case breaks.
func none(name string, found int) Gate { return Gate{name, fmt.Sprint(found), found == 0} }

func atMost(what string, share, most float64) Gate {
	return Gate{fmt.Sprintf("%s at most %g %%", what, 100*most), fmt.Sprintf("%.2f %%", 100*share), share <= most}
}

func atLeast(what string, share, weighted, least float64) Gate {
	return Gate{fmt.Sprintf("%s at least %g %%", what, 100*least), fmt.Sprintf("%.1f %% by count, %.1f %% by weight", 100*share, 100*weighted),
		share >= least && weighted >= least}
}

// Holds says whether every gate holds.
func (r *Report) Holds() bool {
	for _, g := range r.Gates {
		if !g.Holds {
			return false
		}
	}
	return true
}
