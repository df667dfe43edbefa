package plant

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"faultwalk/engine/network"
	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// change compiles one change of a fault.
func (b *builder) change(f *Fault, pos strict.Pos, text string, at place) {
	c, err := trees.ParseChange(text)
	if err == nil {
		err = b.changes(f, c, at)
	}
	if err != nil {
		b.problem(pos, "the fault %q: %s", f.ID, err)
	}
}

func (b *builder) changes(f *Fault, c trees.Change, at place) error {
	switch c.Verb {
	case "lock", "start":
		return b.hold(f, c, at)
	case "open", "ohms":
		i, err := b.branchOf(c.Name, at)
		if err == nil {
			err = at.once(b.branches[i].name)
		}
		if err != nil {
			return err
		}
		a := admittance{}
		if c.Verb == "ohms" && c.Ohms > 0 {
			a = admittance{complex(1/c.Ohms, 0), 1 / c.Ohms}
		}
		f.Electrical = true
		f.changes = append(f.changes, force(i, a))
	case "add":
		return b.more(f, c, at)
	case "land":
		return b.land(f, c, at)
	}
	return nil
}

// force gives a branch an admittance whatever its model says. The emf stays.
func force(i int, a admittance) change {
	return func(s *Subject, net *network.Network) {
		s.forced[i] = a
		net.Branches[i].Y, net.Branches[i].G = a.y, a.g
	}
}

func (b *builder) hold(f *Fault, c trees.Change, at place) error {
	name := c.Name
	switch {
	case c.Thing == "setting":
		name = "setting " + c.Of
	case c.Thing != "":
		name = c.Thing + " " + c.Of + " " + c.Name
	case at.part != nil && !strings.Contains(name, "."):
		name = at.id + "." + name
	}
	i, ok := b.varAt[name]
	if !ok {
		return fmt.Errorf("%q %ss %q, which the plant has not%s", c.Verb, c.Verb, name, hint(name, slices.Sorted(maps.Keys(b.varAt))))
	}
	if err := b.vars[i].holds.Fits(name, c.To); err != nil {
		return err
	}
	if err := at.once(name); err != nil {
		return err
	}
	f.Electrical = f.Electrical || b.electric[i]
	h := held{i, b.literal(c.To)}
	if c.Verb == "start" {
		f.changes = append(f.changes, func(s *Subject, _ *network.Network) { s.starts = append(s.starts, h) })
		return nil
	}
	f.changes = append(f.changes, func(s *Subject, _ *network.Network) { s.locked = append(s.locked, h) })
	return nil
}

// more adds a branch: a leak, a short, a snubber, a lamp.
func (b *builder) more(f *Fault, c trees.Change, at place) error {
	from, err := b.nodeAt(c.From, at)
	if err != nil {
		return err
	}
	to, err := b.nodeAt(c.On, at)
	if err != nil {
		return err
	}
	var a admittance
	z := complex(c.Ohms, 0)
	if c.Farads > 0 {
		z -= complex(0, 1/(omega*c.Farads))
	} else {
		a.g = 1 / c.Ohms
	}
	a.y = 1 / z
	f.Electrical = true
	name := "fault " + f.ID
	f.changes = append(f.changes, func(_ *Subject, net *network.Network) {
		net.Branches = append(net.Branches, network.Branch{Name: name, From: from, To: to, Y: a.y, G: a.g})
	})
	return nil
}

// land puts the end of a core on another point.
func (b *builder) land(f *Fault, c trees.Change, at place) error {
	core := b.Plant.Core(c.Name)
	if core == nil {
		return fmt.Errorf("there is no core %q to land elsewhere%s", c.Name, hint(c.Name, b.Plant.Things("core")))
	}
	if c.From != core.From && c.From != core.To {
		return fmt.Errorf("the core %q does not end at %q; it ends at %q and %q", c.Name, c.From, core.From, core.To)
	}
	i, err := b.branchOf(c.Name+"@"+c.From, place{})
	if err != nil {
		return err
	}
	to, ok := b.net.Find(c.On)
	if !ok || b.Plant.Point(c.On) == nil {
		return fmt.Errorf("there is no point %q to land on%s", c.On, hint(c.On, b.Plant.Things("point")))
	}
	if err := at.once(b.branches[i].name); err != nil {
		return err
	}
	f.Electrical = true
	f.changes = append(f.changes, func(_ *Subject, net *network.Network) { net.Branches[i].To = to })
	return nil
}
