package vet

import (
	"slices"
	"strings"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// fault reports causes and referrals that a fault names and nobody wrote.
func (v *vetting) fault(f trees.ModelFault) {
	for _, t := range f.Causes {
		if name, _, whole := strings.Cut(t.Value, " "); !v.anyCause(name, whole) {
			v.at(t.Pos, Unbindable, "the fault "+quoted(f.ID.Value)+" names "+quoted(t.Value)+", and no cause begins like that")
		}
	}
	for _, t := range f.Refers {
		if v.set.Referrals[t.Value] == nil {
			v.at(t.Pos, Unbindable, "the fault "+quoted(f.ID.Value)+" names the referral "+quoted(t.Value)+", which is not there")
		}
	}
	for _, t := range append(append([]strict.Text{}, f.Only...), f.Except...) {
		if !v.links[t.Value] {
			v.at(t.Pos, Unbindable, "the fault "+quoted(f.ID.Value)+" names the link "+quoted(t.Value)+", which is on no plant")
		}
	}
}

// anyCause says whether a cause has that name, or begins with it.
func (v *vetting) anyCause(name string, whole bool) bool {
	if strings.Contains(name, "$") || v.set.Causes[name] != nil {
		return true
	}
	return !whole && slices.ContainsFunc(sortedKeys(v.set.Causes), func(id string) bool { return strings.HasPrefix(id, name) })
}

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
		if missing := s.missing(c, ofModel); missing != "" {
			v.on(p, t.Pos, Unbindable, "the fault "+quoted(f.ID.Value)+" changes "+missing+", which is not there")
		}
	}
}

// missing names what a change needs and the plant lacks; empty if all is there.
func (s *scope) missing(c trees.Change, ofModel bool) string {
	known, what := true, ""
	switch {
	case strings.Contains(c.Of+c.Name, "$"):
	case c.Thing == "box":
		known, what = s.p.Enclosure(c.Of) != nil, "the enclosure "+quoted(c.Of)
	case c.Thing == "device":
		known, what = s.p.Device(c.Of) != nil, "the device "+quoted(c.Of)
	case c.Thing == "setting":
		known, what = slices.Contains(s.p.Settings, c.Of), "the setting "+quoted(c.Of)
	case c.Verb == "land":
		l := s.link(c.Name)
		known = l != nil && (l.From == c.From || l.To == c.From) && s.p.Point(c.On) != nil
		what = "the core " + quoted(c.Name) + " at " + quoted(c.From) + " or the point " + quoted(c.On)
	case ofModel: // its own was looked up when it was read
	case c.Verb == "add":
		known, what = s.p.Point(c.From) != nil && s.p.Point(c.On) != nil, quoted(c.From)+" or "+quoted(c.On)
	case c.Verb == "open" || c.Verb == "ohms":
		known, what = s.branch(c.Name), quoted(c.Name)
	default:
		known, what = s.variable(c.Name), quoted(c.Name)
	}
	if known {
		return ""
	}
	return what
}

// variable says whether part.variable is there.
func (s *scope) variable(name string) bool {
	id, variable, _ := strings.Cut(name, ".")
	part := s.p.Part(id)
	if part == nil {
		return false
	}
	_, there := typeIn(s.v.set.Models[part.Kind], variable)
	return there
}
