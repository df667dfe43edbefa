package plant

import (
	"maps"
	"slices"

	"faultwalk/engine/network"
	"faultwalk/trees"
	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// Compile builds the model of a composed plant. What cannot be simulated is
// refused with file, line and column.
func Compile(set *trees.Set, p *trees.Plant) (*Model, strict.Problems) {
	whole, problems := set.Whole()
	if len(problems) > 0 {
		return nil, problems
	}
	m := &Model{Plant: p, set: whole, net: &network.Network{}, varAt: map[string]int{}, valueAt: map[string]int{},
		branchAt: map[string]int{}, follows: map[string]formula.Value[*Subject]{}, electric: map[int]bool{},
		faultAt: map[string]*Fault{}, formulas: map[string]compiled{}, signs: map[*trees.Sign]*noticed{}}
	b := &builder{Model: m}
	b.build()
	if len(m.problems) > 0 {
		return nil, m.problems.Sorted()
	}
	m.prepare()
	if len(m.problems) > 0 {
		return nil, m.problems.Sorted()
	}
	return m, nil
}

// prepare makes what every subject shares: the pattern of the network and the
// admittances of the branches that no state changes.
func (m *Model) prepare() {
	m.nominal = m.nominalValues()
	probe := &Subject{m: m, v: m.firsts(), values: m.nominal}
	probe.words()
	m.nominalOf = make([]admittance, len(m.branches))
	for i := range m.branches {
		br := &m.branches[i]
		if br.moves {
			m.dynamic = append(m.dynamic, i)
			continue
		}
		m.nominalOf[i] = br.admittance(probe, 1)
		m.net.Branches[i].Y, m.net.Branches[i].G = m.nominalOf[i].y, m.nominalOf[i].g
	}
	m.dependents()
	m.moving = slices.Sorted(maps.Keys(m.electric))
	m.solver = network.NewSolver(m.net)
	m.spots()
	m.commission()
}

func (m *Model) firsts() []float64 {
	v := make([]float64, len(m.vars))
	for i := range m.vars {
		v[i] = m.vars[i].first
	}
	return v
}

func (m *Model) nominalValues() []float64 {
	v := make([]float64, len(m.values))
	for i := range m.values {
		v[i] = m.values[i].is
	}
	return v
}
