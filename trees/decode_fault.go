package trees

import (
	"slices"

	"faultwalk/trees/strict"
)

// modelFault reads one way to fail, of a model or of an assembly.
func modelFault(s *section) ModelFault {
	v := ModelFault{ID: s.id("id"), Words: s.bare("words"), Scaled: s.Has("share")}
	if v.Weight = s.number("weight"); v.Scaled {
		v.Weight = s.number("share")
	}
	v.Only, v.Except = fewTexts(s.OptWords("only")), fewTexts(s.OptWords("except"))
	for _, t := range fewTexts(s.OptWords("do")) {
		if c, at, err := parseChange(t.Value); err != nil {
			t.ProblemAt(t.AtOffset(at), "%v", err)
		} else if err := c.fits(); err != nil {
			t.ProblemAt(c.toAt(t), "%v", err)
		}
		v.Do = append(v.Do, t)
	}
	v.Causes, v.Refers = fewTexts(s.OptWords("causes")), fewTexts(s.OptWords("refers"))
	hidden, _ := s.OptText("hidden")
	source, _ := s.OptText("source")
	v.Hidden, v.Source = hidden.Value, source.Value
	v.whole(s)
	return v
}

// whole reports a fault that changes nothing or that nobody is led to.
func (v *ModelFault) whole(s *section) {
	switch {
	case !s.Valid():
	case !s.Has("do"):
		s.Problem(`the fault %q changes nothing; expected "do"`, v.ID.Value)
	case s.Has("weight") == s.Has("share"):
		s.Problem(`the fault %q needs one of "weight", how often it is met beside the others, and "share", of the weight of its link`, v.ID.Value)
	case s.Has("only") && s.Has("except"):
		s.KeyProblem("except", `the fault %q has "only" and "except"; expected one of them`, v.ID.Value)
	case !s.Has("causes") && !s.Has("refers") && !s.Has("hidden"):
		s.Problem(`the fault %q names no cause; expected "causes", "refers", or "hidden" with why it shows no sign`, v.ID.Value)
	}
}

// Happens says whether the fault can befall a part or link of its model.
func (v ModelFault) Happens(id string) bool {
	is := func(t strict.Text) bool { return t.Value == id }
	return !slices.ContainsFunc(v.Except, is) && (len(v.Only) == 0 || slices.ContainsFunc(v.Only, is))
}

// Names are what $-names stand for in the faults of a part: itself as $part,
// and the points of its terminals.
func (p *Part) Names() map[string]string {
	names := map[string]string{"part": p.ID}
	for terminal, point := range p.Terminals {
		names[terminal] = point
	}
	return names
}

// Names are what $-names stand for in the faults of a core or a pole.
func (l *Link) Names() map[string]string {
	return map[string]string{"core": l.ID, "from": l.From, "to": l.To, "device": l.Of}
}

// Names gives the texts of a fault with what $-names stand for there.
func (v ModelFault) Names(names map[string]string) (do, causes, refers []string) {
	filled := func(all []strict.Text) []string {
		var out []string
		for _, t := range all {
			out = append(out, FillNames(t.Value, names))
		}
		return out
	}
	return filled(v.Do), filled(v.Causes), filled(v.Refers)
}

// FillNames replaces each $name of a text by what it stands for. Where a name
// runs on with a hyphen the longest known one counts; one that is not known
// stays as it is.
func FillNames(text string, names map[string]string) string {
	declared := func(name string) bool { _, known := names[name]; return known }
	return fillParams(text, declared, func(u paramUse) string {
		v := "$" + u.Name
		if u.Known {
			v = names[u.Name]
		}
		if u.Attr != "" {
			v += "." + u.Attr
		}
		return v
	})
}
