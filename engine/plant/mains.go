package plant

import "faultwalk/trees"

// poles are the contacts of breakers and isolators.
func (b *builder) poles() {
	for _, l := range b.Plant.Links {
		if l.Kind != trees.LinkPole {
			continue
		}
		on, tripped := b.varAt["device "+l.Of+" on"], b.varAt["device "+l.Of+" tripped"]
		b.electric[on], b.electric[tripped] = true, true
		closed := func(s *Subject) float64 { return truth(s.v[on] != 0 && s.v[tripped] == b.none) }
		b.add(branch{name: l.ID, ohms: constant(poleOhms), closed: closed, moves: true, reads: []int{on, tripped}, pos: l.Pos}, l.From, l.To)
	}
}

// mains hangs every supply on the service and adds its protection.
func (b *builder) mains() {
	service := ""
	for _, p := range b.Plant.Parts {
		if p.Kind == "service" {
			service = p.ID
		}
	}
	if service == "" {
		if len(b.Plant.Supplies) > 0 {
			b.problem(b.Plant.Supplies[0].Pos, "the plant has supplies and no part of the kind %q that feeds them; expected one, as in the assembly house", "service")
		}
		return
	}
	for _, s := range b.Plant.Supplies {
		n := supply{of: s}
		n.live = b.fixed("supply "+s.ID+" live", service+"/live", s.Live, jointOhms)
		n.neutral = b.fixed("supply "+s.ID+" neutral", service+"/neutral", s.Neutral, jointOhms)
		d := b.first(s)
		if d == "" {
			b.problem(s.Pos, "no device stands first in the path of the supply %q; expected a pole at %q, so that its breaker can act", s.ID, s.Live)
			continue
		}
		n.device = b.varAt["device "+d+" tripped"]
		b.supplies = append(b.supplies, n)
		b.breaker(n)
	}
	b.residual()
}

// first is the device that a supply meets first: its breaker.
func (b *builder) first(s *trees.Supply) string {
	for _, l := range b.Plant.Links {
		if l.Kind == trees.LinkPole && (l.From == s.Live || l.To == s.Live) {
			return l.Of
		}
	}
	return ""
}
