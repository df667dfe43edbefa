package plant

import "faultwalk/trees/formula"

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
		b.variable("box "+e.ID+" wet", 0, formula.Numeric)
		b.variable("box "+e.ID+" burnt", b.none, formula.Wordy)
	}
	for _, s := range b.Plant.Settings {
		b.variable("setting "+s, right, formula.Wordy)
	}
	for _, d := range b.Plant.Devices {
		b.variable("device "+d.ID+" on", 1, formula.Numeric)
		b.variable("device "+d.ID+" tripped", b.none, formula.Wordy)
	}
	for _, c := range b.Plant.Calls {
		b.variable("call "+c.ID, 0, formula.Numeric)
	}
}

func (b *builder) variable(name string, first float64, typ formula.Type) int {
	i := len(b.vars)
	b.vars = append(b.vars, variable{name: name, first: first, typ: typ, fixed: true})
	b.varAt[name] = i
	return i
}
