package vet

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"faultwalk/trees"
	"faultwalk/trees/spelling"
)

// changes looks up what the changes of a fault, of a model or an assembly, name
// on a plant.
func (v *vetting) changes(p *trees.Plant, f trees.ModelFault, ofModel bool) {
	s := v.scope(p)
	for _, t := range f.Do {
		if !v.afford(changeWork, t.Pos) {
			return
		}
		c, err := trees.ParseChange(t.Value)
		if err != nil {
			continue
		}
		if wrong := s.wrong(c, ofModel); wrong != "" {
			v.on(p, t.Pos, Unbindable, "the fault "+quoted(f.ID.Value)+" changes "+wrong)
		}
	}
}

// wrong says what a change needs and the plant lacks; empty if all is well.
func (s *scope) wrong(c trees.Change, ofModel bool) string {
	switch {
	case strings.Contains(c.Of+c.Name, "$"):
	case c.Thing == "box":
		return absent("the enclosure", c.Of, s.p.Things("enclosure"))
	case c.Thing == "device" || c.Thing == "setting":
		return absent("the "+c.Thing, c.Of, s.p.Things(c.Thing))
	case c.Verb == "land":
		return s.landed(c)
	case ofModel: // its own was looked up when it was read
	case c.Verb == "add":
		return cmp.Or(s.place(c.From), s.place(c.On))
	case c.Verb == "open" || c.Verb == "ohms":
		if !s.branch(c.Name) {
			return absent("the branch", c.Name, s.branches(c.Name))
		}
	default:
		return s.held(c)
	}
	return ""
}

// few is how many known things are listed where none is like what was written.
const few = 6

// absent says that a thing is none of those known, and which was meant or what
// there is; empty if it is one.
func absent(what, id string, known []string) string {
	if slices.Contains(known, id) {
		return ""
	}
	said := what + " " + quoted(id) + ", which is not there"
	near := spelling.DidYouMean(id, known)
	switch {
	case near != "" || len(known) > few:
		return said + near
	case len(known) == 0:
		return said + "; the plant has none"
	}
	return said + "; expected one of " + spelling.Quoted(known)
}

// place looks up a point, a core's end "core:from" or a part's own terminal
// "part.terminal", of which a branch can be added.
func (s *scope) place(id string) string {
	if core, _, end := strings.Cut(id, ":"); end {
		return cmp.Or(absent("the core", core, s.p.Things("core")), absent("the core's end", id, []string{core + ":from", core + ":to"}))
	}
	if name, _, own := strings.Cut(id, "."); own {
		part := s.p.Part(name)
		if part == nil {
			return absent("the part", name, s.p.Things("part"))
		}
		return absent("the terminal", id, prefixed(name+".", slices.Sorted(maps.Keys(part.Terminals))))
	}
	return absent("the point", id, s.p.Things("point"))
}

// landed looks up a core with the end that comes off, and where that goes.
func (s *scope) landed(c trees.Change) string {
	l := s.p.Core(c.Name)
	switch {
	case l == nil:
		return absent("the core", c.Name, s.p.Things("core"))
	case c.From != l.From && c.From != l.To:
		return "the core " + quoted(c.Name) + " at " + quoted(c.From) + ", and it ends at " + quoted(l.From) + " and " + quoted(l.To)
	}
	return absent("the point", c.On, s.p.Things("point"))
}

// held looks up part.variable, and whether it can hold the value.
func (s *scope) held(c trees.Change) string {
	id, variable, dotted := strings.Cut(c.Name, ".")
	part := s.p.Part(id)
	switch {
	case !dotted:
		return quoted(c.Name) + "; expected a part and its variable, as in " + quoted("diverter.body")
	case part == nil:
		return absent("the part", id, s.p.Things("part"))
	}
	m := s.v.set.Models[part.Kind]
	if m == nil {
		return "" // said of the part itself
	}
	for _, v := range m.Variables {
		if v.ID.Value != variable {
			continue
		}
		if err := v.Holds().Fits(c.Name, c.To); err != nil {
			return "what it cannot: " + err.Error()
		}
		return ""
	}
	return absent("the variable", c.Name, prefixed(id+".", variablesOf(m)))
}

func variablesOf(m *trees.Model) (ids []string) {
	for _, v := range m.Variables {
		ids = append(ids, v.ID.Value)
	}
	return ids
}

func prefixed(before string, names []string) []string {
	out := slices.Clone(names)
	for i := range out {
		out[i] = before + out[i]
	}
	return out
}
