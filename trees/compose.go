package trees

import (
	"maps"
	"slices"

	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// Limits of one plant: what follows from the wiring is found by walking it
// once for each supply and device, and plants may come from outside.
const (
	maxUses     = 100  // assemblies of a plant
	maxThings   = 5000 // enclosures, points, parts, cores …
	maxSupplies = 10
	maxDevices  = 50
)

// Compose puts the assemblies of a plant together, checks its wiring and
// derives what follows from it. The plant is nil if there are problems, among
// them that there is no plant of that id.
func (s *Set) Compose(plantID string) (*Plant, strict.Problems) {
	s, problems := s.Whole()
	if len(problems) > 0 {
		return nil, problems
	}
	file := s.Plants[plantID]
	if file == nil {
		known := keys(s.Plants)
		return nil, strict.Problems{problemAt(strict.Pos{File: "plants", Line: 1, Col: 1}, "there is no plant %q; expected one of %s%s",
			clip(plantID), spelling.Quoted(known), spelling.DidYouMean(plantID, known))}
	}
	c := newComposer(&Plant{ID: file.ID, Is: file.Is, Facts: file.Facts})
	c.models, c.checks = s.Models, s.Checks
	if len(file.Uses) > maxUses {
		return nil, strict.Problems{problemAt(file.Pos, "the plant has %d assemblies; expected at most %d", len(file.Uses), maxUses)}
	}
	for _, u := range file.Uses {
		c.use(s, u)
	}
	if c.limits(file.Pos); c.clean() {
		c.names()
	}
	if c.clean() {
		c.plant.finish()
		c.plugged()
		c.wiring()
		c.causes(s)
	}
	if !c.clean() {
		return nil, c.all().Sorted()
	}
	return c.plant, nil
}

// composer reads assemblies into a plant. It keeps where each thing is
// written, and which names must be there in the end.
type composer struct {
	plant    *Plant
	ids      map[string]map[string]strict.Text // kind → id → as written
	refs     []plantRef
	bodies   []*strict.Node
	problems strict.Problems
	things   int
	models   map[string]*Model
	checks   map[string]*Check
	parts    []plugTerminal
	suggestions
}

// plugTerminal is a terminal that a plug names of its part.
type plugTerminal struct {
	plug     *Plug
	terminal strict.Text
}

// plantRef is a name that a thing of the plant uses of another.
type plantRef struct {
	kind, by string
	name     strict.Text
}

func newComposer(p *Plant) *composer {
	return &composer{plant: p, ids: map[string]map[string]strict.Text{}}
}

// use reads one assembly with the values of its parameters.
func (c *composer) use(s *Set, u AssemblyUse) {
	a := s.Assemblies[u.Use.Value]
	if a == nil {
		c.at(u.Use, "there is no assembly %q%s", clip(u.Use.Value), c.suggest(u.Use.Value, idsOf(s.Assemblies)))
		return
	}
	if !c.parameters(a, u) || c.things > maxThings {
		return
	}
	body := a.filled(nil, func(p Param) string { return u.With[p.Name].Value })
	c.bodies = append(c.bodies, body)
	c.body(body)
}

// at records a problem at a text of a plant file: the text itself is shared by
// every composing of the plant, so it is not the one to record into.
func (c *composer) at(t strict.Text, format string, args ...any) {
	c.problems = append(c.problems, problemAt(t.Pos, format, args...))
}

func (c *composer) all() strict.Problems {
	all := c.problems
	for _, b := range c.bodies {
		all = append(all, b.Source().Problems()...)
	}
	return all
}

func (c *composer) clean() bool { return len(c.all()) == 0 }

func (c *composer) limits(pos strict.Pos) {
	for _, l := range []struct {
		what       string
		have, most int
	}{{"things", c.things, maxThings}, {"supplies", len(c.plant.Supplies), maxSupplies}, {"devices", len(c.plant.Devices), maxDevices}} {
		if l.have > l.most {
			c.problems = append(c.problems, problemAt(pos, "the plant has more than %d %s; expected at most that", l.most, l.what))
		}
	}
}

// names checks that everything named is on the plant, and that no core leads nowhere.
func (c *composer) names() {
	for _, l := range c.plant.Links {
		if id, core := c.ids["core"][l.ID]; core && l.From == l.To {
			id.Problem("the core %q begins and ends at %q; expected two points", l.ID, l.To)
		}
	}
	for _, r := range c.refs {
		if _, there := c.ids[r.kind][r.name.Value]; there {
			continue
		}
		known := func() []string { return slices.Collect(maps.Keys(c.ids[r.kind])) }
		r.name.Problem("%s: there is no %s %q on the plant %q%s", r.by, r.kind, clip(r.name.Value), c.plant.ID,
			c.suggest(r.name.Value, known))
	}
}
