package plant

import (
	"fmt"
	"strings"

	"faultwalk/engine/network"
	"faultwalk/trees"
	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// Fault is one way in which the plant fails. ID is "burnt-open of
// unit-isolator.1": the fault and the part, core or pole it happens to.
type Fault struct {
	ID, Words  string
	On         string  // the part, core or pole; empty for one of an assembly
	Weight     float64 // prior, on the scale of the fault catalogue
	Electrical bool    // it changes the network, not only what parts do
	Hidden     string  // why it shows no sign, where it shows none
	Source     string
	Causes     []string // beginnings of the causes that name it
	Refers     []string // referrals that are its right end
	Pos        strict.Pos
	changes    []change
}

// change puts a fault into a subject and its network before they are solved.
type change func(*Subject, *network.Network)

// Is says whether a cause, by its instance text, names this fault.
func (f *Fault) Is(cause string) bool {
	for _, c := range f.Causes {
		if cause == c || strings.HasPrefix(cause, c+" ") {
			return true
		}
	}
	return false
}

// Ends says whether a referral is the right end of this fault.
func (f *Fault) Ends(referral string) bool {
	for _, r := range f.Refers {
		if r == referral {
			return true
		}
	}
	return false
}

// Faults lists every fault written for this plant: of its parts, its links and
// its assemblies, in that order.
func (m *Model) Faults() []*Fault { return m.faults }

// Fault finds a fault by its id; nil if there is none.
func (m *Model) Fault(id string) *Fault { return m.faultAt[id] }

// place is what a fault happens to: how its changes name things.
type place struct {
	id     string
	part   *trees.Part
	link   *trees.Link
	names  map[string]string
	weight float64
}

func (b *builder) allFaults() {
	for _, p := range b.Plant.Parts {
		names := map[string]string{"part": p.ID}
		for t, at := range p.Terminals {
			names[t] = at
		}
		b.faultsOf(b.set.Models[p.Kind], place{id: p.ID, part: p, names: names, weight: p.Weight})
	}
	for _, l := range b.Plant.Links {
		switch l.Kind {
		case trees.LinkCore, trees.LinkEarth, trees.LinkPole:
			names := map[string]string{"core": l.ID, "from": l.From, "to": l.To, "device": l.Of}
			b.faultsOf(b.set.Models[l.Kind], place{id: l.ID, link: l, names: names, weight: l.Weight})
		}
	}
	for i := range b.Plant.Faults {
		b.fault(b.Plant.Faults[i], place{})
	}
}

func (b *builder) faultsOf(md *trees.Model, at place) {
	if md == nil {
		return
	}
	for _, f := range md.Faults {
		if happens(f, at.id) {
			b.fault(f, at)
		}
	}
}

func happens(f trees.ModelFault, id string) bool {
	for _, e := range f.Except {
		if e.Value == id {
			return false
		}
	}
	for _, o := range f.Only {
		if o.Value == id {
			return true
		}
	}
	return len(f.Only) == 0
}

func (b *builder) fault(f trees.ModelFault, at place) {
	n := &Fault{ID: f.ID.Value, Words: trees.FillNames(f.Words, at.names), On: at.id, Weight: f.Weight, Hidden: f.Hidden, Source: f.Source, Pos: f.ID.Pos}
	if at.id != "" {
		n.ID += " of " + at.id
	}
	if f.Scaled {
		n.Weight *= at.weight
	}
	if n.Weight <= 0 {
		return // a link that never fails
	}
	var do []string
	do, n.Causes, n.Refers = f.Names(at.names)
	for i, d := range do {
		b.change(n, f.Do[i].Pos, d, at)
	}
	if b.faultAt[n.ID] != nil {
		b.problem(f.ID.Pos, "the plant has the fault %q twice; expected another id", n.ID)
		return
	}
	b.faultAt[n.ID] = n
	b.faults = append(b.faults, n)
}

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
		return b.land(f, c)
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
		return fmt.Errorf("%q %ss %q, which the plant has not%s", c.Verb, c.Verb, name, hint(name, sortedKeys(b.varAt)))
	}
	to, typ := b.literal(c.To)
	if typ != b.vars[i].typ {
		return fmt.Errorf("%q is set to %q; it is a %s", name, c.To, kindOf(b.vars[i].typ))
	}
	f.Electrical = f.Electrical || b.electric[i]
	h := held{i, to}
	if c.Verb == "start" {
		f.changes = append(f.changes, func(s *Subject, _ *network.Network) { s.starts = append(s.starts, h) })
		return nil
	}
	f.changes = append(f.changes, func(s *Subject, _ *network.Network) { s.locked = append(s.locked, h) })
	return nil
}

func kindOf(t formula.Type) string {
	if t == formula.Wordy {
		return "word"
	}
	return "number"
}

// branchOf finds the branch that a change names: in a part "winding" or "@in",
// of a link "core", "core@from", "core@to" or "pole", of an assembly
// "part/winding", "part@in", "core@to" or "device.1".
func (b *builder) branchOf(name string, at place) (int, error) {
	full := name
	switch {
	case at.part != nil && strings.HasPrefix(name, "@"):
		full = at.id + name
	case at.part != nil && !strings.ContainsAny(name, "/@"):
		full = at.id + "/" + name
	case at.link != nil && (name == "core" || name == "pole"):
		full = at.id
	case at.link != nil && strings.HasPrefix(name, "core@"):
		full = at.id + strings.TrimPrefix(name, "core")
	}
	if i, ok := b.branchAt[full]; ok {
		return i, nil
	}
	if core, end, ok := strings.Cut(full, "@"); ok {
		for _, l := range b.Plant.Links {
			if l.ID == core && (l.From == end || l.To == end) {
				side := "@from"
				if l.To == end {
					side = "@to"
				}
				return b.branchAt[core+side], nil
			}
		}
	}
	return 0, fmt.Errorf("there is no branch %q%s", full, hint(full, sortedKeys(b.branchAt)))
}

// nodeAt finds the node that a change names: in a part its terminal or node,
// else a point of the plant.
func (b *builder) nodeAt(name string, at place) (network.Node, error) {
	names := []string{name}
	if at.part != nil {
		names = []string{at.id + "/" + name, at.id + "." + name, name}
	}
	for _, n := range names {
		if i, ok := b.net.Find(n); ok {
			return i, nil
		}
	}
	return 0, fmt.Errorf("there is no terminal, node or point %q", name)
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
func (b *builder) land(f *Fault, c trees.Change) error {
	i, err := b.branchOf(c.Name+"@"+c.From, place{})
	if err != nil {
		return err
	}
	to, ok := b.net.Find(c.On)
	if !ok {
		return fmt.Errorf("there is no point %q to land on", c.On)
	}
	f.Electrical = true
	f.changes = append(f.changes, func(_ *Subject, net *network.Network) { net.Branches[i].To = to })
	return nil
}
