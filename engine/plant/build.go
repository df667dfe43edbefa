package plant

import "faultwalk/trees"

// builder turns the plant into the model: implicit variables first, then parts,
// links, supplies with the places of all branches, and at last the formulas,
// which may name any of them.
type builder struct {
	*Model
	later []func()
}

func (b *builder) build() {
	b.implicit()
	for _, p := range b.Plant.Parts {
		b.part(p)
	}
	b.cables()
	b.poles()
	b.mains()
	for _, f := range b.later {
		f()
	}
	b.air()
	b.dangling()
	b.undriven()
	if len(b.problems) == 0 {
		b.negative()
		b.joins()
	}
	if len(b.problems) == 0 {
		b.allFaults()
	}
}

// implicit makes the variables of enclosures, settings, devices and calls.
func (b *builder) implicit() {
	right := b.words.ID("right")
	b.none = b.words.ID("none")
	for _, e := range b.Plant.Enclosures {
		b.variable("box "+e.ID+" wet", 0, trees.HoldsTruth)
		b.variable("box "+e.ID+" burnt", b.none, trees.HoldsWord)
	}
	for _, s := range b.Plant.Settings {
		b.variable("setting "+s, right, trees.HoldsWord)
	}
	for _, d := range b.Plant.Devices {
		b.variable("device "+d.ID+" on", 1, trees.HoldsTruth)
		b.variable("device "+d.ID+" tripped", b.none, trees.HoldsWord)
	}
	for _, c := range b.Plant.Calls {
		b.variable("call "+c.ID, 0, trees.HoldsTruth)
	}
}

func (b *builder) variable(name string, first float64, holds trees.Holds) int {
	i := len(b.vars)
	b.vars = append(b.vars, variable{name: name, first: first, holds: holds, fixed: true})
	b.varAt[name] = i
	return i
}
