package trees

import "faultwalk/trees/strict"

// AssemblyKinds are what a parameter of an assembly may be.
var AssemblyKinds = []string{"point", "number", "word"}

// assembly reads the head of an assembly and tries its body with stand-ins for
// the parameters, so that what is wrong with it shows before a plant uses it.
func (r *reader) assembly(s *section) {
	id := r.fileID(s, "assembly")
	keep := r.claim("assembly", id)
	a := &Assembly{ID: id.Value, Pos: id.Pos, Of: s.params(AssemblyKinds), Body: s.node}
	a.Is = s.prose("is")
	s.Entries() // the body has its own reader
	body := a.filled(s, func(p Param) string {
		if p.Kind == "number" {
			return "1"
		}
		return p.Name
	})
	newComposer(&Plant{}).body(body)
	r.problems = append(r.problems, body.Source().Problems()...)
	if keep {
		r.set.Assemblies[id.Value] = a
	}
}

// filled gives a copy of the body with the parameters' values. With a section,
// parameters that are not declared are reported there.
func (a *Assembly) filled(s *section, value func(Param) string) *strict.Node {
	return a.Body.Fill(func(t strict.Text) string {
		return fillParams(t.Value, isParam(a.Of), func(u paramUse) string {
			if s != nil {
				s.wrong(t, u)
			}
			for _, p := range a.Of {
				if p.Name == u.Name && u.Known {
					return value(p)
				}
			}
			return u.Name
		})
	})
}
