package trees

import (
	"maps"
	"slices"

	"faultwalk/trees/strict"
)

// link looks up every name that one thing uses of another.
func (l *loader) link() {
	for _, w := range l.wants {
		if w.owner.replaced {
			continue
		}
		switch w.kind {
		case "check", "cause", "routine":
			l.reference(w)
		default:
			l.exists(w.kind, w.text, w.text.Value)
		}
	}
	l.linkCauses()
	l.linkTrees()
	l.linkChecks()
	l.linkStops()
	l.cycles()
}

// exists reports a name that nothing has.
func (l *loader) exists(kind string, at strict.Text, name string) {
	if l.set.has(kind, name) {
		return
	}
	at.Problem("there is no %s %q%s", kind, clip(name), l.suggest(name, l.known(kind)))
}

// has says whether the set has a thing of that kind.
func (s *Set) has(kind, name string) bool {
	switch kind {
	case "scale":
		return s.Scales[name] != nil
	case "symptom":
		return s.Symptoms[name] != nil
	case "referral":
		return s.Referrals[name] != nil
	case "plant":
		return s.Plants[name] != nil
	case "sign":
		return s.Sign(name) != nil
	}
	return s.Assemblies[name] != nil
}

// Sign finds a sign by id; nil if there is none.
func (s *Set) Sign(id string) *Sign {
	for _, v := range s.Signs {
		if v.ID.Value == id {
			return v
		}
	}
	return nil
}

func (s *Set) signIDs() []string {
	var ids []string
	for _, v := range s.Signs {
		ids = append(ids, v.ID.Value)
	}
	return ids
}

// known gives the names of one kind of thing.
func (l *loader) known(kind string) func() []string {
	switch kind {
	case "scale":
		return idsOf(l.set.Scales)
	case "check":
		return idsOf(l.set.Checks)
	case "cause":
		return idsOf(l.set.Causes)
	case "routine":
		return idsOf(l.set.Routines)
	case "symptom":
		return idsOf(l.set.Symptoms)
	case "referral":
		return idsOf(l.set.Referrals)
	case "plant":
		return idsOf(l.set.Plants)
	case "sign":
		return l.set.signIDs
	}
	return idsOf(l.set.Assemblies)
}

func keys[T any](m map[string]*T) []string { return slices.Sorted(maps.Keys(m)) }
