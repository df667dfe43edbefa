package trees

import (
	"strings"

	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// side gives the part or core that a probe's place was written as an end of.
func (b *binder) side(t strict.Text, params []Param, args map[string]string) string {
	thing, attr, dotted := strings.Cut(fill(t.Value, params, args), ".")
	if !dotted {
		return ""
	}
	if part := b.plant.Part(thing); part != nil {
		if _, terminal := part.Terminals[attr]; terminal {
			return thing
		}
	}
	if b.plant.Point(thing) == nil && b.plant.Core(thing) != nil {
		return thing
	}
	return ""
}

// lifted resolves the parts and cores whose ends are off for a reading, sorted, each once.
func (b *binder) lifted(c *Check, args map[string]string, pos strict.Pos) []string {
	seen := map[string]bool{}
	for _, t := range c.Lifted {
		id := fill(t.Value, c.Of, args)
		if b.plant.Part(id) == nil && b.plant.Core(id) == nil {
			b.problem(pos, "%s: there is no part and no core %q on this plant", t.Value, id)
			continue
		}
		seen[id] = true
	}
	return Chosen(seen)
}

// does fills in the acts of a check, one text for each.
func (b *binder) does(c *Check, args map[string]string) []string {
	var out []string
	for _, t := range c.Does {
		acts, err := formula.ParseActs(fill(t.Value, c.Of, args))
		if err != nil {
			b.problem(t.Pos, "%v", err)
		}
		for _, act := range acts {
			b.act(act, t.Pos)
			out = append(out, act.String())
		}
	}
	return out
}

// act reports an act on a thing this plant lacks.
func (b *binder) act(a formula.Act, pos strict.Pos) {
	known := true
	switch a.Verb {
	case "call", "release":
		known = b.plant.Call(a.Of) != nil
	case "off", "on":
		known = b.plant.Device(a.Of) != nil
	case "reset":
		known = b.plant.Device(a.Of) != nil || b.plant.Part(a.Of) != nil
	}
	if !known {
		b.problem(pos, "%q: there is no %q on this plant", a, a.Of)
	}
}

// answers gives the answers of a look with what their formulas name filled in.
func (b *binder) answers(c *Check, args map[string]string) []Answer {
	out := append([]Answer(nil), c.Answers...)
	for i := range out {
		out[i].When.Value = fill(out[i].When.Value, c.Of, args)
	}
	return out
}
