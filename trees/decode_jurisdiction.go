package trees

import (
	"strings"

	"faultwalk/trees/spelling"
)

// jurisdiction reads what differs between countries.
func (r *reader) jurisdiction(s *section) {
	id := r.fileID(s, "jurisdiction")
	v := &Jurisdiction{ID: id.Value, Pos: id.Pos, Name: s.prose("name")}
	m := s.sub(s.Node("mains"), `"mains"`)
	v.Low, v.Nominal, v.High = m.Number("low").Value, m.Number("nominal").Value, m.Number("high").Value
	if m.Valid() && !(0 < v.Low && v.Low <= v.Nominal && v.Nominal <= v.High) {
		s.KeyProblem("mains", "the mains are %v, %v, %v; expected low, nominal, high in ascending order, volts", v.Low, v.Nominal, v.High)
	}
	m.Done()
	v.Emergency, v.Network, v.Gas = s.Scalar("emergency").Value, s.Scalar("network").Value, s.Scalar("gas").Value
	for _, t := range s.OptWords("standards") {
		v.Standards = append(v.Standards, t.Value)
	}
	v.Law = s.optProse("law")
	for _, n := range few(s.List("gates")) {
		v.Gates = append(v.Gates, r.gate(s.sub(n, "a gate"), v.Gates))
	}
	r.everyGate(s, v)
	if r.claim("jurisdiction", id) {
		r.set.Jurisdictions[id.Value] = v
	}
}

// gate reads who may do one kind of thing.
func (r *reader) gate(s *section, before []Gate) Gate {
	may := s.Text("may")
	oneOfWords(may, "capability", Capabilities)
	for _, g := range before {
		if g.May == may.Value && may.Value != "" {
			may.Problem("the gate %q comes twice; expected one for each capability", may.Value)
		}
	}
	g := Gate{May: may.Value, Words: s.prose("words"), Who: map[string]string{}}
	for _, hands := range Hands {
		g.Who[hands] = s.OneOf(hands, "yes", "supervised", "never").Value
	}
	for _, t := range s.OptWords("needs") {
		g.Needs = append(g.Needs, t.Value)
	}
	g.ByPhone = s.OneOf("phone", "yes", "never").Value
	s.Done()
	return g
}

// everyGate reports capabilities that no gate judges: nobody could do them, and nobody would be told why.
func (r *reader) everyGate(s *section, v *Jurisdiction) {
	there := map[string]bool{}
	for _, g := range v.Gates {
		there[g.May] = true
	}
	var missing []string
	for _, c := range Capabilities {
		if !there[c] {
			missing = append(missing, c)
		}
	}
	if len(missing) > 0 && len(v.Gates) > 0 {
		s.KeyProblem("gates", "no gate for %s; expected one for each capability", strings.TrimSpace(spelling.Quoted(missing)))
	}
}
