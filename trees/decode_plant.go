package trees

import "faultwalk/trees/strict"

// plant reads a list of assemblies with their parameters.
func (r *reader) plant(s *section) {
	id := r.fileID(s, "plant")
	keep := r.claim("plant", id)
	v := &PlantFile{ID: id.Value, Pos: id.Pos, Is: s.prose("is")}
	for _, n := range few(s.List("facts")) {
		v.Facts = append(v.Facts, r.fact(s.sub(n, "a fact"), v.Facts))
	}
	for _, n := range s.List("assemblies") {
		v.Uses = append(v.Uses, r.assemblyUse(s.sub(n, "the use of an assembly")))
	}
	if keep {
		r.set.Plants[id.Value] = v
	}
}

// fact reads one of the things that invert expectations.
func (r *reader) fact(s *section, before []Fact) Fact {
	id := s.id("id")
	for _, f := range before {
		if f.ID == id.Value && id.Value != "" {
			id.Problem("the fact %q comes twice", id.Value)
		}
	}
	f := Fact{ID: id.Value, Ask: s.prose("ask"), Say: s.optProse("say")}
	var options []string
	for _, n := range few(s.List("options")) {
		o := s.sub(n, "an option")
		option := o.id("id")
		if contains(options, option.Value) {
			option.Problem("the option %q comes twice", option.Value)
		}
		options = append(options, option.Value)
		f.Options = append(f.Options, FactOption{ID: option.Value, Say: o.prose("say")})
		o.Done()
	}
	is := s.Text("is")
	oneOfWords(is, "option of this fact", options)
	f.Is = is.Value
	s.Done()
	return f
}

func (r *reader) assemblyUse(s *section) AssemblyUse {
	u := AssemblyUse{Use: s.Text("use"), With: map[string]strict.Text{}}
	r.want("assembly", u.Use, nil)
	if m, there := s.OptSub("with"); there {
		for _, e := range m.Entries() {
			u.With[e.Key.Value] = e.Value.Scalar("the parameter " + e.Key.Value)
			u.Names = append(u.Names, e.Key)
		}
	}
	s.Done()
	return u
}
