package rehearse

import (
	"slices"
	"strings"

	"faultwalk/engine/plant"
	"faultwalk/trees"
)

// swept says which causes and referrals are the right end of a fault of a core
// that nobody wrote: those of the faults written for that core, and every cause
// that names the core, a point it ends at, or a chain that the core is a link
// of. Of a joint it may also name the part or device at that joint.
func (m simulated) swept(of *plant.Fault) (is, ends func(string) bool) {
	names := m.beside(of)
	is = func(cause string) bool {
		for _, f := range m.model.Faults() {
			if f.On == of.On && f.Is(cause) {
				return true
			}
		}
		ref, err := trees.ParseRef(cause)
		return err == nil && slices.ContainsFunc(ref.Args, func(a trees.Arg) bool { return names[a.Value] })
	}
	ends = func(referral string) bool {
		return slices.ContainsFunc(m.model.Faults(), func(f *plant.Fault) bool { return f.On == of.On && f.Ends(referral) })
	}
	return is, ends
}

// beside names the core of a swept fault, its ends and its chains, and what is
// joined to it where the fault is.
func (m simulated) beside(of *plant.Fault) map[string]bool {
	p := m.model.Plant
	core := p.Core(of.On)
	names := map[string]bool{core.ID: true, core.From: true, core.To: true}
	here := func(point string) bool { return strings.HasSuffix(of.ID, " at "+point) }
	for _, part := range p.Parts {
		for _, point := range part.Terminals {
			names[part.ID] = names[part.ID] || here(point)
		}
	}
	for _, l := range p.Links {
		if l.Kind == trees.LinkPole && (here(l.From) || here(l.To)) {
			names[l.Of] = true
		}
	}
	for _, c := range p.Chains {
		for _, l := range c.Links {
			names[c.ID] = names[c.ID] || l.Over.ID == core.ID
		}
	}
	return names
}
