package trees

import "faultwalk/trees/strict"

// scale reads the bands of a quantity, one list for any mode or one for each group of modes.
func (r *reader) scale(s *section) {
	id := s.id("id")
	v := &Scale{ID: id.Value, Pos: id.Pos}
	if s.Which("bands", "modes") == "modes" {
		for _, n := range few(s.List("modes")) {
			v.Modes = append(v.Modes, r.modeBands(n.Map("the bands of some modes")))
		}
	} else {
		v.Modes = []ModeBands{{Bands: r.bands(s.Map)}}
	}
	r.modesOnce(s, v)
	v.leveled = v.namesLevels()
	if r.claim("scale", id) {
		r.set.Scales[id.Value] = v
	}
}

func (r *reader) modeBands(m *strict.Map) ModeBands {
	var v ModeBands
	for _, t := range m.Words("for") {
		if knownMode(t) {
			v.Modes = append(v.Modes, t.Value)
		}
	}
	v.Bands = r.bands(m)
	m.Done()
	return v
}

// modesOnce reports a mode that two lists of bands claim.
func (r *reader) modesOnce(s *section, v *Scale) {
	seen := map[string]bool{}
	for _, group := range v.Modes {
		for _, mode := range group.Modes {
			if seen[mode] {
				s.KeyProblem("modes", "the mode %q has bands twice; expected one list of bands for each mode", mode)
			}
			seen[mode] = true
		}
	}
}

func (r *reader) bands(m *strict.Map) []Band {
	nodes := few(m.List("bands"))
	var all []Band
	for i, n := range nodes {
		all = append(all, r.band(n.Map("a band"), i == len(nodes)-1, all))
	}
	return all
}

// band reads one band; only the last reaches on without an edge.
func (r *reader) band(m *strict.Map, last bool, before []Band) Band {
	name := m.Text("band")
	if name.Value != "" && !bandWord.MatchString(name.Value) {
		name.Problem("found the band %q; expected letters, digits and _, because it stands in conditions", clip(name.Value))
	}
	for _, b := range before {
		if b.Name == name.Value && name.Value != "" {
			name.Problem("the band %q comes twice; expected a name of its own for each", name.Value)
		}
	}
	to, edged := m.OptText("to")
	including, _ := m.OptBool("including")
	switch {
	case last && edged:
		to.Problem("the last band has an edge; expected none, so that every reading has a band")
	case !last && !edged:
		m.Problem(`the band %q has no edge; expected "to" on every band but the last`, name.Value)
	case including && last:
		m.KeyProblem("including", `the last band has no edge; "including" says nothing there`)
	}
	r.edge(to)
	m.Done()
	return Band{Name: name.Value, To: to, Last: last, Including: including}
}
