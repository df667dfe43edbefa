package vet

import (
	"fmt"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// pairs reports a meter that loads the circuit on any pair but a live and a
// neutral. To earth and across residual-current groups the binding reports it;
// what is left are two lives, two neutrals and extra-low voltage (handbook 3.0).
func (v *vetting) pairs(p *trees.Plant, c *trees.BoundCheck) {
	for i, b := range c.Probes {
		if b.From == nil || b.To == nil || b.Earth || liveAndNeutral(b.From, b.To) {
			continue
		}
		for _, m := range b.Modes {
			if measurements.Mode(m).Loads() {
				v.on(p, c.Check.Probes[i].From.Pos, Pairing, fmt.Sprintf("%s between %s and %s: a meter that loads the circuit is for a live and a neutral only; use high impedance or two-pole unloaded",
					m, b.From.ID, b.To.ID))
			}
		}
	}
}

func liveAndNeutral(a, b *trees.Point) bool {
	if a.Role == "neutral" {
		a, b = b, a
	}
	return (a.Role == "live" || a.Role == "switched") && b.Role == "neutral"
}
