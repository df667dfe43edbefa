package rehearse

import (
	"maps"
	"slices"

	"faultwalk/trees"
)

// about takes in the checks of the whole library that can be taken of what the
// causes of a group name: a tree that stops at a group may not leave out a check
// that no tree takes.
func (m *matrix) about(causes []*trees.BoundCause) {
	things := m.things(causes)
	for _, id := range slices.Sorted(maps.Keys(m.set.Checks)) {
		c := m.set.Checks[id]
		if len(c.Of) == 0 {
			continue
		}
		for _, ref := range m.instances(trees.Ref{Name: id}, c.Of, things) {
			if m.known[ref.String()] {
				continue
			}
			m.known[ref.String()] = true
			if b, problems := m.set.BindCheck(ref.String(), m.bench.plant); len(problems) == 0 {
				m.take(b)
			}
		}
	}
}

// things are the ids that causes name, with the terminals of the parts among them.
func (m *matrix) things(causes []*trees.BoundCause) []string {
	all := map[string]bool{}
	for _, c := range causes {
		ref, err := trees.ParseRef(c.ID)
		if err != nil {
			continue
		}
		for _, a := range ref.Args {
			all[a.Value] = true
			if part := m.bench.plant.Part(a.Value); part != nil {
				for _, point := range part.Terminals {
					all[point] = true
				}
			}
		}
	}
	return slices.Sorted(maps.Keys(all))
}

// instances fills in the parameters of a check with every fitting thing.
func (m *matrix) instances(ref trees.Ref, params []trees.Param, things []string) []trees.Ref {
	if len(params) == 0 {
		return []trees.Ref{ref}
	}
	var out []trees.Ref
	for _, value := range m.fitting(params[0].Kind, things) {
		next := trees.Ref{Name: ref.Name, Args: append(append([]trees.Arg{}, ref.Args...), trees.Arg{Name: params[0].Name, Value: value})}
		out = append(out, m.instances(next, params[1:], things)...)
	}
	return out
}

// fitting are the things that a parameter of a kind may name; of calls, all of
// the plant's.
func (m *matrix) fitting(kind string, things []string) []string {
	p := m.bench.plant
	var out []string
	if kind == "call" {
		for _, c := range p.Calls {
			out = append(out, c.ID)
		}
		return out
	}
	is := map[string]func(string) bool{
		"point":     func(id string) bool { return p.Point(id) != nil },
		"part":      func(id string) bool { return p.Part(id) != nil },
		"core":      func(id string) bool { return p.Core(id) != nil },
		"device":    func(id string) bool { return p.Device(id) != nil },
		"enclosure": func(id string) bool { return p.Enclosure(id) != nil },
		"chain":     func(id string) bool { return p.Chain(id) != nil },
	}[kind]
	for _, id := range things {
		if is != nil && is(id) {
			out = append(out, id)
		}
	}
	return out
}
