package trees

import (
	"fmt"
	"maps"
	"slices"

	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// part reads one part and the links that its kind implies.
func (c *composer) part(s *section) {
	id := c.id("part", s)
	kind := s.Text("kind")
	known := oneOfWords(kind, "kind of part", slices.Sorted(maps.Keys(PartKinds)))
	p := &Part{Pos: c.pos("part", id), ID: id, Kind: kind.Value, Words: s.prose("words"), Weight: s.number("weight"),
		Terminals: map[string]string{}, TerminalPos: map[string]strict.Pos{}}
	if m, there := s.OptSub("terminals"); there {
		for _, e := range m.Entries() {
			p.TerminalPos[e.Key.Value] = e.Key.Pos
			p.Terminals[e.Key.Value] = c.named("point", fmt.Sprintf("the part %q", id), e.Value.Text("the terminal "+e.Key.Value))
		}
	}
	p.Plug = c.optRef("plug", "plug", fmt.Sprintf("the part %q", id), s)
	c.values(p, s)
	p.Texts = partTexts(s)
	p.Follows, _ = s.OptScalar("follows")
	formulaOf(p.Follows, "follows")
	cause := c.cause(s)
	c.plant.Parts = append(c.plant.Parts, p)
	if known {
		c.joins(s, p, PartKinds[p.Kind], cause)
	}
}

// values reads the numbers of a part. What its model takes from it must be more
// than nought, unless the model says that nought makes sense.
func (c *composer) values(p *Part, s *section) {
	m, there := s.OptSub("values")
	if !there {
		return
	}
	p.Values, p.ValuePos = map[string]float64{}, map[string]strict.Pos{}
	for _, e := range m.Entries() {
		n := e.Value.Number("the value " + e.Key.Value)
		p.Values[e.Key.Value], p.ValuePos[e.Key.Value] = n.Value, n.Pos
		if v := c.models[p.Kind].value(e.Key.Value); v != nil && !v.Zero && n.Value <= 0 {
			n.Problem("the value %q of the part %q is %v; expected more than 0", e.Key.Value, p.ID, n.Value)
		}
	}
}

// value finds a value of a model by the name a part gives it; nil if it has none.
func (m *Model) value(id string) *ModelValue {
	if m == nil {
		return nil
	}
	for i, v := range m.Values {
		if v.ID.Value == FormulaName(id) {
			return &m.Values[i]
		}
	}
	return nil
}

// plugged reports terminals of plugs that their parts do not have.
func (c *composer) plugged() {
	for _, t := range c.parts {
		part := c.plant.Part(t.plug.Of)
		if _, there := part.Terminals[t.terminal.Value]; !there {
			t.terminal.Problem("the part %q has no terminal %q; expected one of %s", part.ID, clip(t.terminal.Value),
				spelling.Quoted(slices.Sorted(maps.Keys(part.Terminals))))
		}
	}
}

func partTexts(s *section) map[string]string {
	m, there := s.OptSub("texts")
	if !there {
		return nil
	}
	texts := map[string]string{}
	for _, e := range m.Entries() {
		texts[e.Key.Value] = e.Value.Scalar("the text " + e.Key.Value).Value
	}
	return texts
}

// joins adds the contact or the loads of a part. The id of such a link is the
// part's and the terminal it begins at: "high-limit.in", "diverter.switch".
func (c *composer) joins(s *section, p *Part, kind PartKind, cause string) {
	ways, linkKind := kind.Loads, LinkLoad
	if kind.Contact {
		ways, linkKind = [][2]string{{"in", "out"}}, LinkContact
	}
	if cause != "" && !kind.Contact {
		s.KeyProblem("cause", "a %s has no contact; expected %q only on one that has", p.Kind, "cause")
	}
	weight := p.Weight
	if !s.Has("weight") {
		weight = contactWeight
	}
	for _, w := range ways {
		if !c.terminals(s, p, w) {
			continue
		}
		c.plant.Links = append(c.plant.Links, &Link{Pos: p.Pos, ID: p.ID + "." + w[0], Kind: linkKind, Words: p.Words, Of: p.ID,
			From: p.Terminals[w[0]], To: p.Terminals[w[1]], Weight: weight, Cause: cause})
	}
}

// terminals reports the terminals that a part of its kind must have and lacks.
func (c *composer) terminals(s *section, p *Part, way [2]string) bool {
	whole := true
	for _, t := range way {
		if _, there := p.Terminals[t]; !there {
			whole = false
			found := ""
			if near, ok := spelling.Nearest(t, slices.Sorted(maps.Keys(p.Terminals))); ok {
				found = fmt.Sprintf("; found %q", near)
			}
			s.KeyProblem("terminals", "the %s %q needs the terminal %q%s", p.Kind, p.ID, t, found)
		}
	}
	return whole
}

// problemOf records what is wrong with a thing of the plant, where its id is written.
func (c *composer) problemOf(kind, id, format string, args ...any) {
	c.textOf(kind, id).Problem(format, args...)
}

func (c *composer) textOf(kind, id string) strict.Text { return c.ids[kind][id] }
