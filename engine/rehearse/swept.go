package rehearse

import (
	"slices"

	"faultwalk/trees"
)

// swept says which causes and referrals are the right end of a fault of a core
// that nobody wrote: those of the faults written for that core, and every cause
// that names the core, a point it ends at, a part or device at that point, or a
// chain that the core is a link of.
func (m simulated) swept(core string) (is, ends func(string) bool) {
	names := m.beside(core)
	is = func(cause string) bool {
		for _, f := range m.model.Faults() {
			if f.On == core && f.Is(cause) {
				return true
			}
		}
		ref, err := trees.ParseRef(cause)
		return err == nil && slices.ContainsFunc(ref.Args, func(a trees.Arg) bool { return names[a.Value] })
	}
	ends = func(referral string) bool {
		for _, f := range m.model.Faults() {
			if f.On == core && f.Ends(referral) {
				return true
			}
		}
		return false
	}
	return is, ends
}

// beside names a core, its ends, what is joined to them, and its chains.
func (m simulated) beside(core string) map[string]bool {
	p := m.model.Plant
	names := map[string]bool{core: true}
	at := map[string]bool{}
	for _, l := range p.Links {
		if l.ID == core {
			at[l.From], at[l.To] = true, true
			names[l.From], names[l.To] = true, true
		}
	}
	for _, part := range p.Parts {
		for _, point := range part.Terminals {
			names[part.ID] = names[part.ID] || at[point]
		}
	}
	for _, l := range p.Links {
		if l.Kind == trees.LinkPole && (at[l.From] || at[l.To]) {
			names[l.Of] = true
		}
	}
	for _, c := range p.Chains {
		for _, l := range c.Links {
			names[c.ID] = names[c.ID] || l.Over.ID == core
		}
	}
	return names
}
