package trees

import (
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees/strict"
)

// check binds a reference to a check; bound once per instance.
func (b *binder) check(t strict.Text, params []Param, args map[string]string) *BoundCheck {
	ref, ok := b.ref(t, params, args)
	if !ok {
		return nil
	}
	if bc, known := b.checks[ref.String()]; known {
		return b.takes(bc)
	}
	c := b.set.Checks[ref.Name]
	if c == nil {
		b.problem(t.Pos, "unknown check %q", ref.Name)
		return nil
	}
	a, ok := b.args(ref, c.Of, t.Pos)
	if !ok {
		return nil
	}
	return b.bindCheck(ref, c, a, t.Pos)
}

func (b *binder) bindCheck(ref Ref, c *Check, a map[string]string, pos strict.Pos) *BoundCheck {
	say := func(s string) string { return b.prose(s, c.Of, a) }
	bc := &BoundCheck{ID: ref.String(), Check: c, Look: say(c.Look.Value), Quantity: measurements.Quantity(c.Read),
		Answers: b.answers(c, a), Good: c.Good, Where: say(c.Where), How: say(c.How), Why: say(c.Why), Else: say(c.Else), Say: say(c.Say)}
	b.checks[bc.ID], b.graph.checks[bc.ID] = bc, bc
	bc.Expect = c.Expect
	bc.Expect.Value = fill(c.Expect.Value, c.Of, a)
	for _, p := range c.Probes {
		bc.Probes = append(bc.Probes, b.probe(c, p, a, pos))
	}
	bc.Need.Calls = b.calls(c.Calls, c.Of, a, pos)
	bc.Need.For = c.For
	bc.Need.Unplugged = b.ids(c.Unplugged, c.Of, a, "plug", pos)
	bc.Lifted, bc.Does = b.lifted(c, a, pos), b.does(c, a)
	b.needOf(bc, b.ids(c.Inside, c.Of, a, "enclosure", pos))
	if len(c.Uses) > 0 {
		bc.Uses = map[string]*BoundCheck{}
		for _, u := range c.Uses {
			bc.Uses[u.As] = b.check(u.Check, c.Of, a)
		}
	}
	return bc
}

func (b *binder) probe(c *Check, p Probe, a map[string]string, pos strict.Pos) BoundProbe {
	out := BoundProbe{As: p.As, Modes: p.Modes, From: b.place(p.From, c.Of, a, pos)}
	out.FromSide = b.side(p.From, c.Of, a)
	if p.To.Value != "" {
		out.To, out.ToSide = b.place(p.To, c.Of, a, pos), b.side(p.To, c.Of, a)
	}
	for _, t := range p.Joined {
		if pt := b.place(t, c.Of, a, pos); pt != nil {
			out.Joined = append(out.Joined, Joined{pt, b.side(t, c.Of, a)})
		}
	}
	if len(out.Modes) == 0 {
		for _, m := range measurements.ModesFor(measurements.Quantity(c.Read)) {
			out.Modes = append(out.Modes, string(m))
		}
	}
	if c.Read == string(measurements.ACVolts) {
		out.Levels = b.set.Levels[b.plant.ID].between(out.From, out.To)
	}
	out.Earth = isEarth(out.From) || isEarth(out.To)
	b.enclosed(out, pos)
	b.modesByPair(out, p, pos)
	return out
}

// enclosed reports a reading at a point that mains reaches and no enclosure
// holds: what would have to be opened and proved dead for it could not be
// derived.
func (b *binder) enclosed(out BoundProbe, pos strict.Pos) {
	for _, pt := range []*Point{out.From, out.To} {
		if pt != nil && pt.In == "" && b.plant.IsLive(pt.ID) {
			b.problem(pos, "%s is reached by mains and lies in no enclosure, so nobody could say what is opened for it; give it one", pt.ID)
		}
	}
}

func isEarth(p *Point) bool { return p != nil && p.Role == "earth" }

// modesByPair holds the rule that low impedance and a load button are for live
// and neutral of the same RCD only: 3 kΩ to earth passes 80 mA, trips the RCD,
// and with a broken earth lifts the case to mains (handbook 3.0, 5.1).
func (b *binder) modesByPair(out BoundProbe, p Probe, pos strict.Pos) {
	for _, m := range out.Modes {
		if !measurements.Mode(m).Loads() {
			continue
		}
		if out.Earth {
			b.problem(p.From.Pos, "%s from %s is to earth or a case: use high impedance or two-pole unloaded", m, out.From.ID)
		} else if out.From != nil && out.To != nil && !b.plant.SameRCD(out.From.ID, out.To.ID) {
			b.problem(pos, "%s between %s and %s crosses two RCDs and would trip both: use high impedance or two-pole unloaded", m, out.From.ID, out.To.ID)
		}
	}
}

// place resolves a probe's place to a point.
func (b *binder) place(t strict.Text, params []Param, args map[string]string, pos strict.Pos) *Point {
	id, ok := b.id(fill(t.Value, params, args))
	if pt := b.plant.Point(id); ok && pt != nil {
		return pt
	}
	b.problem(pos, "%s: there is no point %q on this plant", t.Value, id)
	return nil
}

// id follows an attribute if there is one.
func (b *binder) id(text string) (string, bool) {
	thing, attr, dotted := strings.Cut(text, ".")
	if !dotted {
		return text, true
	}
	to, ok := b.plant.attribute(thing, attr)
	if !ok {
		return text, false
	}
	return to, true
}

// ids resolves a list of plugs or enclosures, sorted, each once.
func (b *binder) ids(ts []strict.Text, params []Param, args map[string]string, kind string, pos strict.Pos) []string {
	seen := map[string]bool{}
	for _, t := range ts {
		id, ok := b.id(fill(t.Value, params, args))
		if kind == "plug" && ok && b.plant.Plug(id) == nil {
			if part := b.plant.Part(id); part != nil && part.Plug != "" {
				id = part.Plug
			}
		}
		if !ok || kind == "plug" && b.plant.Plug(id) == nil || kind == "enclosure" && b.plant.Enclosure(id) == nil {
			b.problem(pos, "%s: there is no %s %q on this plant", t.Value, kind, id)
			continue
		}
		seen[id] = true
	}
	return Chosen(seen)
}

func (b *binder) calls(cs []CallState, params []Param, args map[string]string, pos strict.Pos) map[string]bool {
	if len(cs) == 0 {
		return nil
	}
	out := map[string]bool{}
	for _, c := range cs {
		id := fill(c.Call.Value, params, args)
		if b.plant.Call(id) == nil {
			b.problem(pos, "%q cannot be called on this plant", id)
			continue
		}
		out[id] = c.On
	}
	return out
}
