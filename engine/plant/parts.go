package plant

import (
	"maps"
	"slices"

	"faultwalk/trees"
)

// part brings the variables, values and nodes of one part; its formulas come later.
func (b *builder) part(p *trees.Part) {
	md := b.set.Models[p.Kind]
	if md == nil {
		b.problem(p.Pos, "the part %q is a %s, and no model says how a %s acts; expected one in the folder models", p.ID, p.Kind, p.Kind)
		return
	}
	for _, v := range md.Values {
		b.value(p, v)
	}
	for _, v := range md.Variables {
		b.own(p, v)
	}
	for _, t := range slices.Sorted(maps.Keys(p.Terminals)) {
		b.fixed(p.ID+"@"+t, p.ID+"."+t, p.Terminals[t], jointOhms)
	}
	sc := &scope{m: b.Model, part: p, model: md}
	b.later = append(b.later, func() { b.follow(sc) })
	for _, br := range md.Branches {
		b.branch(sc, br)
	}
	b.later = append(b.later, func() { b.acts(sc) })
}

// value takes a number of a part from the part, or else from its model.
func (b *builder) value(p *trees.Part, v trees.ModelValue) {
	is, given := v.Is.Value, v.Given
	pos := v.ID.Pos
	for name, x := range p.Values {
		if trees.FormulaName(name) == v.ID.Value {
			is, given, pos = x, true, p.ValuePos[name]
		}
	}
	switch {
	case !given:
		b.problem(p.Pos, "the part %q gives no value %q, and its model %q has none of its own", p.ID, v.ID.Value, p.Kind)
	case is <= 0 && !v.Zero:
		b.problem(pos, "the value %q of the part %q is %g; expected more than 0", v.ID.Value, p.ID, is)
	}
	b.valueAt[p.ID+"."+v.ID.Value] = len(b.values)
	b.values = append(b.values, value{p.ID + "." + v.ID.Value, is, v.Tolerance})
}

func (b *builder) own(p *trees.Part, v trees.ModelVariable) {
	name := p.ID + "." + v.ID.Value
	if _, twice := b.varAt[name]; twice {
		b.problem(v.ID.Pos, "the variable %q of a %s has two first values; expected one", v.ID.Value, p.Kind)
		return
	}
	i := b.variable(name, b.literal(v.First.Value), v.Holds())
	b.vars[i].fixed, b.vars[i].at = v.Fixed, v.ID
}

// literal is the number of a literal: a number, true, false or a word.
func (m *Model) literal(text string) float64 {
	number, word := trees.Literal(text)
	if word {
		return m.words.ID(text)
	}
	return number
}

// follow compiles what drives a part.
func (b *builder) follow(sc *scope) {
	if sc.part.Follows.Value == "" {
		return
	}
	out := &scope{m: b.Model, drives: true}
	sc.follows = byHand(sc.part.ID, out.compile(sc.part.Follows, "follows"))
	sc.dynamicFollows, sc.networkFollows = out.dynamic, out.network
	sc.followsReads = out.reads
	b.follows[sc.part.ID] = sc.follows
}

// acts adds the rules and trips of a part.
func (b *builder) acts(sc *scope) {
	p, md := sc.part, sc.model
	for _, r := range md.Rules {
		b.rules = b.ruled(sc, b.rules, r, "a rule")
	}
	for _, r := range md.Slow {
		b.slow = b.ruled(sc, b.slow, r, "a slow rule")
	}
	for _, t := range md.Trips {
		overload, reads, _ := sc.function(t.Overload, "an overload")
		b.watchful = b.watchful || len(reads) > 0
		b.trips = append(b.trips, trip{p.ID + " " + t.ID.Value, overload, []int{b.varAt[p.ID+"."+t.Set.Value]}, b.literal(t.To.Value)})
	}
}

func (b *builder) ruled(sc *scope, list []rule, r trees.ModelRule, what string) []rule {
	name := sc.part.ID + "." + r.Set.Value
	i, known := b.varAt[name]
	if !known {
		b.problem(r.Set.Pos, "the rule sets %q, and a %s has no such variable%s", r.Set.Value, sc.part.Kind, hint(r.Set.Value, sc.own()))
		return list
	}
	to, reads, network := sc.function(r.To, what)
	return append(list, rule{i, to, reads, network})
}
