package trees

import (
	"regexp"

	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

var plainNumber = regexp.MustCompile(`^(0|[1-9][0-9]*)(\.[0-9]+)?$`)

// parameters checks the values a plant gives to an assembly, and says whether they are whole.
func (c *composer) parameters(a *Assembly, u AssemblyUse) bool {
	before := len(c.problems)
	var names []string
	for _, p := range a.Of {
		names = append(names, p.Name)
		v, given := u.With[p.Name]
		if !given {
			c.at(u.Use, "the assembly %q needs the parameter %q, a %s", a.ID, p.Name, p.Kind)
			continue
		}
		c.value(a, p, v)
	}
	for _, n := range u.Names {
		if paramKind(a.Of, n.Value) == "" {
			c.at(n, "the assembly %q has no parameter %q%s%s", a.ID, clip(n.Value), expectedNames(names), spelling.DidYouMean(n.Value, names))
		}
	}
	return len(c.problems) == before
}

func expectedNames(names []string) string {
	if len(names) == 0 {
		return "; it has none"
	}
	return "; expected one of " + spelling.Quoted(names)
}

func (c *composer) value(a *Assembly, p Param, v strict.Text) {
	switch {
	case p.Kind == "number" && !plainNumber.MatchString(v.Value):
		c.at(v, "the parameter %q of the assembly %q is %q; expected a number of 0 or more", p.Name, a.ID, clip(v.Value))
	case p.Kind == "point" && !idWord.MatchString(v.Value):
		c.at(v, "the parameter %q of the assembly %q is %q; expected the id of a point", p.Name, a.ID, clip(v.Value))
	}
}
