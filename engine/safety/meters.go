package safety

import (
	"fmt"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// holds says whether an instrument in hand, one that the hands named, has a mode
// for a quantity.
func holds(ctx Context, mode measurements.Mode, q measurements.Quantity) bool {
	known := ctx.Kit.Instruments
	if len(known) == 0 {
		known = measurements.DefaultKit().Instruments
	}
	for i := range known {
		if _, ok := known[i].Spec(mode, q); ok && contains(ctx.Hands.Kit, known[i].ID) {
			return true
		}
	}
	return false
}

// Modes settles the meter mode of every probe of a check: the first the check
// names that may be used on that pair and that the kit has. A refusal says
// what is missing, or that no mode may be used there at all.
func Modes(ctx Context, c *trees.BoundCheck) ([]string, *Refusal) {
	var out []string
	for _, b := range c.Probes {
		mode, r := settle(ctx, c, b)
		if r != nil {
			return nil, r
		}
		out = append(out, mode)
	}
	return out, nil
}

// settle finds the mode for one probe.
func settle(ctx Context, c *trees.BoundCheck, b trees.BoundProbe) (string, *Refusal) {
	var why *Refusal
	for _, m := range wanted(c, b) {
		if r := pairAllows(ctx.Plant, b, m); r != nil {
			why = r
			continue
		}
		if holds(ctx, measurements.Mode(m), c.Quantity) {
			return m, nil
		}
		if why == nil || why.Kind != Instrument {
			why = lacks(m)
		}
	}
	return "", why
}

// wanted lists the modes a probe may be read in, best first. Volts without a
// word about the mode are read without loading the circuit.
func wanted(c *trees.BoundCheck, b trees.BoundProbe) []string {
	if len(b.Modes) > 0 {
		return b.Modes
	}
	var out []string
	for _, m := range measurements.ModesFor(c.Quantity) {
		if !m.Loads() {
			out = append(out, string(m))
		}
	}
	return out
}

// pairAllows refuses a mode that draws current on any pair but live and neutral
// of one residual-current group.
func pairAllows(p *trees.Plant, b trees.BoundProbe, mode string) *Refusal {
	if !measurements.Mode(mode).Loads() || !b.Earth && mayLoad(p, b.From, b.To) {
		return nil
	}
	return &Refusal{
		Why:  fmt.Sprintf("no %s between %s: only between live and neutral of the same RCD. To earth, to a case or across two RCDs use high impedance", mode, pair(b)),
		Kind: Never,
	}
}

// pair words the two points of a probe.
func pair(b trees.BoundProbe) string {
	if b.To == nil {
		return b.From.Words
	}
	return b.From.Words + " and " + b.To.Words
}

// lacks refuses for want of an instrument.
func lacks(mode string) *Refusal {
	return &Refusal{Why: fmt.Sprintf("this needs an instrument with the mode %q, and the kit has none", mode), Referral: noInstrument, Kind: Instrument}
}

// checkModes judges the modes a check would be read in: those set on the meter,
// and where none is settled yet, that there is one.
func checkModes(ctx Context, t Thing) *Refusal {
	if t.Check == nil {
		return nil
	}
	if len(t.Modes) > len(t.Check.Probes) {
		return &Refusal{Why: "more meter modes are named than the check has readings", Kind: Unknown}
	}
	for i, b := range t.Check.Probes {
		if i >= len(t.Modes) || t.Modes[i] == "" {
			if _, r := settle(ctx, t.Check, b); r != nil {
				return r
			}
			continue
		}
		m := t.Modes[i]
		if !measurements.Mode(m).Reads(t.Check.Quantity) {
			return &Refusal{Why: fmt.Sprintf("%s does not read %s", m, t.Check.Quantity), Kind: Instrument, Referral: noInstrument}
		}
		if r := pairAllows(ctx.Plant, b, m); r != nil {
			return r
		}
	}
	return nil
}

// canProve judges the instruments for a proof: a two-pole tester and something
// to prove it on. A multimeter, a neon or a non-contact stick proves nothing
// (handbook 1.3, after GS38).
func canProve(ctx Context) *Refusal {
	for _, m := range []measurements.Mode{measurements.TwoPoleUnloaded, measurements.TwoPoleLoaded} {
		if !holds(ctx, m, measurements.ACVolts) {
			return &Refusal{Why: "proving dead needs a two-pole voltage tester with a load button; a multimeter, a neon or a stick is none", Referral: noInstrument, Kind: Instrument}
		}
	}
	if !ctx.Hands.ProvingUnit {
		return &Refusal{Why: "proving dead needs a proving unit, to prove the tester before and after", Referral: noInstrument, Kind: Instrument}
	}
	return nil
}
