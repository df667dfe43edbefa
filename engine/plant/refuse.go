package plant

import "strings"

// dangling reports points at which mains or a signal should stand and nothing is joined.
func (b *builder) dangling() {
	joined := map[string]bool{}
	for i, br := range b.net.Branches {
		if strings.HasPrefix(b.branches[i].name, "air ") {
			continue
		}
		joined[b.net.Name(br.From)], joined[b.net.Name(br.To)] = true, true
	}
	for _, pt := range b.Plant.Points {
		if pt.Role != "" && !joined[pt.ID] {
			b.problem(pt.Pos, "the point %q dangles: no core, part or supply is joined to it", pt.ID)
		}
	}
}

// undriven reports variables that move by nothing, and those that two rules move.
func (b *builder) undriven() {
	driven := map[int]int{}
	for _, list := range [][]rule{b.rules, b.slow} {
		for _, r := range list {
			driven[r.set]++
		}
	}
	tripped := map[int]bool{}
	for _, t := range b.trips {
		for _, i := range t.set {
			tripped[i] = true
		}
	}
	for i, v := range b.vars {
		switch n := driven[i]; {
		case n > 1:
			b.problem(v.at.Pos, "two rules set the variable %q; expected one", v.name)
		case n == 0 && !v.fixed && !tripped[i]:
			b.problem(v.at.Pos, "no rule drives the variable %q; expected one, or \"fixed: true\" where only a fault changes it", v.name)
		case n > 0 && v.fixed:
			b.problem(v.at.Pos, "the variable %q is fixed and a rule sets it; expected one or the other", v.name)
		}
	}
}

// negative reports branches that would give energy: each ohm and farad must be
// more than nothing in the state in which history begins.
func (b *builder) negative() {
	probe := &Subject{m: b.Model, v: b.firsts(), values: b.nominalValues()}
	probe.words()
	for i := range b.branches {
		br := &b.branches[i]
		if br.closed != nil && br.closed(probe) == 0 {
			continue
		}
		for _, f := range []struct {
			what string
			of   func(*Subject) float64
		}{{"Ω", br.ohms}, {"F", br.farads}, {"Ω at dc", br.dcOhms}} {
			if f.of == nil {
				continue
			}
			if x := f.of(probe); !(x > 0) {
				b.problem(br.pos, "the branch %q has %g %s; expected more than 0", br.name, x, f.what)
			}
		}
	}
}
