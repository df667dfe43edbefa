package vet

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"faultwalk/trees"
	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// fault reports causes, referrals and links that a fault names and that are
// nowhere.
func (v *vetting) fault(f trees.ModelFault) {
	says := func(t strict.Text, format string, args ...any) {
		v.at(t.Pos, Unbindable, "the fault "+quoted(f.ID.Value)+" names "+fmt.Sprintf(format, args...))
	}
	for _, t := range f.Causes {
		if name, _, _ := strings.Cut(t.Value, " "); !strings.Contains(name, "$") && v.set.Causes[name] == nil {
			says(t, "%s, and there is no cause %s%s", quoted(t.Value), quoted(name), spelling.DidYouMean(name, slices.Sorted(maps.Keys(v.set.Causes))))
		}
	}
	for _, t := range f.Refers {
		if v.set.Referrals[t.Value] == nil {
			says(t, "%s", absent("the referral", t.Value, slices.Sorted(maps.Keys(v.set.Referrals))))
		}
	}
	for _, t := range append(slices.Clone(f.Only), f.Except...) {
		if !v.links[t.Value] {
			says(t, "the link %s, which is on no plant%s", quoted(t.Value), spelling.DidYouMean(t.Value, slices.Sorted(maps.Keys(v.links))))
		}
	}
}

// causes looks up what the causes of a fault name, where the fault stands for
// something on a plant: what no cause could ever read no walk could end at.
func (v *vetting) causes(p *trees.Plant, f trees.ModelFault, names map[string]string) {
	for _, t := range f.Causes {
		if !v.afford(causeWork, t.Pos) {
			return
		}
		if wrong := v.led(p, trees.FillNames(t.Value, names)); wrong != "" {
			v.on(p, t.Pos, Unbindable, "the fault "+quoted(f.ID.Value)+" names "+wrong)
		}
	}
}

// befalls looks at the causes of the faults that can befall one thing of a plant.
func (v *vetting) befalls(p *trees.Plant, m *trees.Model, id string, names map[string]string) {
	if m == nil {
		return
	}
	for _, f := range m.Faults {
		if f.Happens(id) {
			v.causes(p, f, names)
		}
	}
}

// led says what is wrong with the beginning of a cause; empty if nothing is.
// What another plant has may be named on every one.
func (v *vetting) led(p *trees.Plant, text string) string {
	ref, err := trees.ParseRef(text)
	c := v.set.Causes[ref.Name]
	switch {
	case strings.Contains(text, "$"):
		return quoted(text) + ", in which nothing stands for the $"
	case err != nil:
		return err.Error()
	case c == nil:
		return "" // said of the fault itself
	}
	for i, a := range ref.Args {
		if i >= len(c.Of) || c.Of[i].Name != a.Name {
			return quoted(text) + ", and " + quoted(c.ID) + " takes " + parameters(c)
		}
		kind := c.Of[i].Kind
		if !v.anyPlant(func(p *trees.Plant) bool { return p.Has(kind, a.Value) }) {
			return quoted(text) + ", with " + absent("the "+kind, a.Value, p.Things(kind))
		}
	}
	return ""
}

// second reports a branch to a cause whose second reading is the one that the
// branch goes by: it would be confirmed by what made it likely.
func (v *vetting) second(p *trees.Plant, b *trees.Bound, br *trees.BoundBranch) {
	if len(br.To.Causes) != 1 {
		return
	}
	if c := br.To.Causes[0]; c.Confirm != nil && c.Confirm.Check.ID == b.Check.ID {
		v.on(p, br.Pos, Unproved, "goes by "+quoted(b.Check.ID)+", which is also the confirming reading of "+quoted(c.Cause.ID)+"; a second reading has to be another")
	}
}

// parameters says what a cause is of.
func parameters(c *trees.Cause) string {
	var all []string
	for _, param := range c.Of {
		all = append(all, quoted(param.Name)+", which is of the kind "+param.Kind)
	}
	switch len(all) {
	case 0:
		return "nothing more"
	case 1:
		return all[0]
	}
	return "in this order " + joined(all)
}
