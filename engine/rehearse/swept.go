package rehearse

import (
	"slices"

	"faultwalk/engine/plant"
	"faultwalk/trees"
)

// swept says which causes and referrals are the right end of a fault of a core
// that nobody wrote: those of the faults written for that core, and every cause
// that names the core itself.
func (m simulated) swept(of *plant.Fault) (is, ends func(string) bool) {
	written := func(holds func(*plant.Fault) bool) bool {
		return slices.ContainsFunc(m.model.Faults(), func(f *plant.Fault) bool { return f.On == of.On && holds(f) })
	}
	is = func(cause string) bool {
		ref, err := trees.ParseRef(cause)
		named := err == nil && slices.ContainsFunc(ref.Args, func(a trees.Arg) bool { return a.Value == of.On })
		return named || written(func(f *plant.Fault) bool { return f.Is(cause) })
	}
	ends = func(referral string) bool {
		return written(func(f *plant.Fault) bool { return f.Ends(referral) })
	}
	return is, ends
}
