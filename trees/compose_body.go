package trees

import (
	"faultwalk/trees/strict"
)

// body reads what one assembly brings.
func (c *composer) body(n *strict.Node) {
	m := n.Map("an assembly")
	for _, key := range []string{"assembly", "is", "of"} {
		m.OptNode(key)
	}
	for _, list := range []struct {
		key, what string
		read      func(*section)
	}{
		{"enclosures", "an enclosure", c.enclosure}, {"points", "a point", c.point}, {"parts", "a part", c.part},
		{"plugs", "a plug", c.plug}, {"cores", "a core", c.core}, {"supplies", "a supply", c.supply},
		{"devices", "a device", c.device}, {"calls", "a call", c.call}, {"chains", "a chain", c.chain},
		{"faults", "a fault", c.fault},
	} {
		for _, item := range m.OptList(list.key) {
			s := &section{Map: item.Map(list.what), node: item}
			c.things++
			if s.Valid() {
				list.read(s)
			}
			s.Done()
		}
	}
	c.settings(m)
	m.Done()
}

func (c *composer) settings(m *strict.Map) {
	for _, t := range m.OptWords("settings") {
		c.things++
		if c.name("setting", t) {
			c.plant.Settings = append(c.plant.Settings, t.Value)
		}
	}
}

// id reads the id of a thing; of one kind each id comes once on a plant.
func (c *composer) id(kind string, s *section) string {
	id := s.id("id")
	c.name(kind, id)
	return id.Value
}

// pos gives where the id of a thing is written.
func (c *composer) pos(kind, id string) strict.Pos { return c.ids[kind][id].Pos }

func (c *composer) name(kind string, id strict.Text) bool {
	if id.Value == "" {
		return false
	}
	if c.ids[kind] == nil {
		c.ids[kind] = map[string]strict.Text{}
	}
	switch before, twice := c.ids[kind][id.Value]; {
	case twice && before.Pos == id.Pos:
		id.Problem("the plant uses this assembly twice, and the %s is %q both times; expected a parameter in the id", kind, id.Value)
		return false
	case twice:
		id.Problem("the %s %q is at %s already; a plant has each id once", kind, id.Value, before.Pos)
		return false
	}
	c.ids[kind][id.Value] = id
	return true
}

// ref reads a required name of another thing of the plant.
func (c *composer) ref(kind, key, by string, s *section) string {
	return c.named(kind, by, s.Text(key))
}

// optRef reads a name that may be missing.
func (c *composer) optRef(kind, key, by string, s *section) string {
	t, _ := s.OptText(key)
	return c.named(kind, by, t)
}

func (c *composer) named(kind, by string, t strict.Text) string {
	if t.Value != "" {
		c.refs = append(c.refs, plantRef{kind, by, t})
	}
	return t.Value
}
