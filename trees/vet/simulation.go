package vet

import (
	"maps"
	"slices"
	"strings"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// simulation looks at what the simulation of a plant is made of: models,
// signs, faults and the answers of looks. Trees without models are not
// simulated, and nothing is said of them.
func (v *vetting) simulation() {
	if len(v.set.Models) == 0 {
		return
	}
	used := map[string]bool{}
	for _, p := range v.plants {
		v.modelled(p, used)
		v.signs(p)
		for _, f := range p.Faults {
			v.fault(f)
			v.changes(p, f, false)
			v.causes(p, f, nil)
		}
	}
	for _, kind := range slices.Sorted(maps.Keys(v.set.Models)) {
		m := v.set.Models[kind]
		if !used[kind] && v.bound() {
			v.mine(m.Pos, Unused, "no plant has anything of the kind "+quoted(kind))
		}
		for _, f := range m.Faults {
			v.fault(f)
		}
	}
	v.answers()
	v.signsOfTrees()
}

// modelled looks at every kind of thing that a plant has, and notes it as used.
func (v *vetting) modelled(p *trees.Plant, used map[string]bool) {
	terminals := map[string]map[string]bool{} // of each kind's parts together
	for _, part := range p.Parts {
		m := v.set.Models[part.Kind]
		if m == nil {
			v.on(p, part.Pos, Missing, "no model says how the "+part.Kind+" "+quoted(part.ID)+" acts, so its plant cannot be simulated")
			continue
		}
		v.part(p, m, part)
		v.befalls(p, m, part.ID, part.Names())
		if terminals[part.Kind] == nil {
			terminals[part.Kind] = map[string]bool{}
		}
		for t := range part.Terminals {
			terminals[part.Kind][t] = true
		}
	}
	for kind, has := range terminals {
		used[kind] = true
		v.model(v.scope(p).of(v.set.Models[kind], has))
	}
	for _, l := range p.Links {
		if l.Kind != trees.LinkContact && l.Kind != trees.LinkLoad {
			used[l.Kind] = true
			v.befalls(p, v.set.Models[l.Kind], l.ID, l.Names())
		}
	}
}

// part reports what a model needs of a part and that part does not give.
func (v *vetting) part(p *trees.Plant, m *trees.Model, part *trees.Part) {
	if !v.afford(partWork, part.Pos) {
		return
	}
	given := map[string]bool{}
	for id := range part.Values {
		given[trees.FormulaName(id)] = true
	}
	for _, value := range m.Values {
		if !value.Given && !given[value.ID.Value] {
			v.on(p, part.Pos, Missing, "the "+part.Kind+" "+quoted(part.ID)+" needs the value "+quoted(value.ID.Value)+", for which its model has none")
		}
	}
	for _, b := range m.Branches {
		for _, end := range []string{b.From.Value, b.To.Value} {
			if _, there := part.Terminals[end]; !there && end != ground && !lists(m.Nodes, end) && !lists(m.Optional, end) {
				v.on(p, part.Pos, Missing, "the "+part.Kind+" "+quoted(part.ID)+" needs the terminal "+quoted(end)+", where a branch of its model ends")
			}
		}
	}
	if part.Follows.Value == "" && v.follows[m] {
		v.on(p, part.Pos, Missing, "the "+part.Kind+" "+quoted(part.ID)+" needs \"follows\", what drives it")
	}
	v.scope(p).check(part.Follows, "follows")
}

// ground is the node of a model that is true earth.
const ground = "ground"

// lists says whether a name is one of the texts.
func lists(all []strict.Text, name string) bool {
	for _, t := range all {
		if t.Value == name {
			return true
		}
	}
	return false
}

// follows says whether a formula of a model asks what drives the part.
func follows(m *trees.Model) bool {
	for _, t := range formulasOf(m) {
		if strings.Contains(t.Value, "followed") {
			return true
		}
	}
	return false
}

// formulasOf lists the formulas of a model.
func formulasOf(m *trees.Model) []strict.Text {
	var all []strict.Text
	for _, b := range m.Branches {
		all = append(all, b.Ohms, b.Reactance, b.Farads, b.DCOhms, b.Volts, b.DCVolts, b.Closed)
	}
	for _, r := range append(append([]trees.ModelRule{}, m.Rules...), m.Slow...) {
		all = append(all, r.To)
	}
	for _, t := range m.Trips {
		all = append(all, t.Overload)
	}
	return all
}

// model compiles the formulas of a model with the names of the plant.
func (v *vetting) model(s *scope) {
	for _, t := range formulasOf(s.model) {
		s.check(t, "a formula")
	}
	for _, f := range s.model.Faults {
		v.changes(s.p, f, true)
	}
}
