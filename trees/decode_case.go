package trees

import "faultwalk/trees/strict"

// callout reads a case. What it names of a tree and of a plant is looked up
// when the case is walked.
func (r *reader) callout(s *section) {
	id := s.id("case")
	keep := r.claim("case", id)
	v := &Case{ID: id.Value, Pos: id.Pos, Symptom: s.Text("symptom"), Plant: s.Text("plant"), Is: s.prose("is"),
		Guards: s.optProse("guards"), Source: s.prose("source")}
	r.want("symptom", v.Symptom, nil)
	r.want("plant", v.Plant, nil)
	v.Gives = given(s)
	v.Path = s.Words("path")
	switch s.Which("cause", "refer", "pass") {
	case "cause":
		v.Ends.Causes = s.oneOrMore("cause")
		for _, c := range v.Ends.Causes {
			r.wantRef("cause", c, nil)
		}
	case "refer":
		v.Ends.Refer = s.Text("refer")
		r.want("referral", v.Ends.Refer, nil)
	case "pass":
		v.Ends.Pass = s.Text("pass")
		r.want("symptom", v.Ends.Pass, nil)
	}
	if keep {
		r.set.keepCase(v)
	}
}

// keepCase adds a case, or puts it in the place of one that it replaces.
func (s *Set) keepCase(v *Case) {
	for i, old := range s.Cases {
		if old.ID == v.ID {
			s.Cases[i] = v
			return
		}
	}
	s.Cases = append(s.Cases, v)
}

// given reads what the checks of a case give: a text or a list for each.
func given(s *section) (out []Given) {
	for _, e := range s.Sub("gives").Entries() {
		g := Given{Check: e.Key}
		if e.Value.Kind != strict.List {
			g.Reads = []strict.Text{e.Value.Scalar("the reading")}
		} else {
			for _, n := range few(e.Value.List("the readings")) {
				g.Reads = append(g.Reads, n.Scalar("a reading"))
			}
		}
		out = append(out, g)
	}
	return out
}
