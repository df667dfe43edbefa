package trees

import (
	"maps"
	"slices"

	"faultwalk/trees/strict"
)

// LinkKinds are the kinds of model that are no parts: what joins points.
var LinkKinds = []string{LinkCore, LinkEarth, LinkPole}

// model reads how one kind of part acts in the simulation.
func (r *reader) model(s *section) {
	kind := s.id("model")
	known := append(slices.Sorted(maps.Keys(PartKinds)), LinkKinds...)
	keep := r.claim("model", kind) && oneOfWords(kind, "kind of part or link", known)
	v := &Model{Kind: kind.Value, Pos: kind.Pos, Is: s.bare("is")}
	v.Optional, v.Nodes = s.ids("optional"), s.ids("nodes")
	for _, n := range few(s.OptList("values")) {
		v.Values = append(v.Values, modelValue(s.sub(n, "a value")))
	}
	for _, n := range few(s.OptList("variables")) {
		v.Variables = append(v.Variables, modelVariable(s.sub(n, "a variable")))
	}
	for _, n := range few(s.OptList("branches")) {
		v.Branches = append(v.Branches, r.modelBranch(s.sub(n, "a branch")))
	}
	v.Rules, v.Slow = r.modelRules(s, "rules"), r.modelRules(s, "slow")
	for _, n := range few(s.OptList("trips")) {
		v.Trips = append(v.Trips, r.modelTrip(s.sub(n, "a trip")))
	}
	for _, n := range few(s.OptList("faults")) {
		f := s.sub(n, "a fault")
		v.Faults = append(v.Faults, modelFault(f))
		f.Done()
	}
	(&modelCheck{Model: v}).check()
	if keep {
		r.set.Models[kind.Value] = v
	}
}

// bare reads a required text in which $ means nothing yet.
func (s *section) bare(key string) string { return s.Text(key).Value }

// ids reads a list of plain words that may be missing, each once.
func (s *section) ids(key string) []strict.Text {
	var all []strict.Text
	for _, t := range fewTexts(s.OptWords(key)) {
		switch {
		case !idWord.MatchString(t.Value):
			t.Problem("found %q in %q; expected a plain hyphenated word such as inside", clip(t.Value), key)
		case slices.ContainsFunc(all, func(o strict.Text) bool { return o.Value == t.Value }):
			t.Problem("%q comes twice", t.Value)
		default:
			all = append(all, t)
		}
	}
	return all
}

// fewTexts gives the texts of a list, no more of them than one thing may have.
func fewTexts(texts []strict.Text) []strict.Text {
	if len(texts) > maxItems {
		texts[maxItems].Problem("the list has %d items; expected at most %d", len(texts), maxItems)
		return texts[:maxItems]
	}
	return texts
}

func modelValue(s *section) ModelValue {
	v := ModelValue{ID: s.formulaName("id"), Zero: s.yes("zero"), Tolerance: s.number("tolerance")}
	v.Is, v.Given = s.OptNumber("is")
	if v.Given && v.Is.Value <= 0 && !v.Zero {
		v.Is.Problem("the value %q is %v; expected more than 0, or \"zero: true\" where nought or less makes sense", v.ID.Value, v.Is.Value)
	}
	if v.Tolerance >= 1 {
		s.KeyProblem("tolerance", "the tolerance is %v; expected a fraction below 1, such as 0.1", v.Tolerance)
	}
	s.Done()
	return v
}

func modelVariable(s *section) ModelVariable {
	v := ModelVariable{ID: s.formulaName("id"), First: s.Scalar("first"), Fixed: s.yes("fixed")}
	s.Done()
	return v
}

func (r *reader) modelBranch(s *section) ModelBranch {
	v := ModelBranch{ID: s.id("id"), From: s.id("from"), To: s.id("to")}
	for _, f := range []struct {
		key string
		to  *strict.Text
	}{{"ohms", &v.Ohms}, {"reactance", &v.Reactance}, {"farads", &v.Farads}, {"dc-ohms", &v.DCOhms}, {"volts", &v.Volts},
		{"dc-volts", &v.DCVolts}, {"closed", &v.Closed}} {
		*f.to, _ = s.OptScalar(f.key)
		formulaOf(*f.to, f.key)
	}
	v.Tolerance = s.number("tolerance")
	if s.Valid() && !s.Has("ohms") && !s.Has("reactance") && !s.Has("farads") && !s.Has("dc-ohms") {
		s.Problem(`the branch %q has nothing that passes current; expected "ohms", "reactance", "farads" or "dc-ohms"`, v.ID.Value)
	}
	if v.From.Value != "" && v.From.Value == v.To.Value {
		v.To.Problem("the branch %q begins and ends at %q; expected two places", v.ID.Value, v.To.Value)
	}
	s.Done()
	return v
}

func (r *reader) modelRules(s *section, key string) []ModelRule {
	var all []ModelRule
	for _, n := range few(s.OptList(key)) {
		rule := s.sub(n, "a rule")
		v := ModelRule{Set: rule.formulaName("set"), To: rule.Scalar("to")}
		formulaOf(v.To, "a rule")
		rule.Done()
		all = append(all, v)
	}
	return all
}

func (r *reader) modelTrip(s *section) ModelTrip {
	v := ModelTrip{ID: s.id("id"), Overload: s.Scalar("overload"), Set: s.formulaName("set"), To: s.Scalar("to")}
	formulaOf(v.Overload, "an overload")
	s.Done()
	return v
}
