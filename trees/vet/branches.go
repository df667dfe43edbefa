package vet

import (
	"maps"
	"slices"
	"strings"

	"faultwalk/trees"
)

// branch says whether a plant, or the model in scope, has a branch: "winding"
// in a model, "valve/winding", a core or a pole elsewhere, "@in" and
// "valve@in" a joint of a terminal, "core@to" the joint at an end.
func (s *scope) branch(name string) bool {
	of, joint, isJoint := strings.Cut(name, "@")
	if s.model != nil {
		return isJoint && s.terminals[joint] || hasBranch(s.model, name) || slices.Contains(trees.LinkKinds, s.model.Kind)
	}
	if isJoint {
		return s.joint(of, joint)
	}
	if part, branch, inside := strings.Cut(name, "/"); inside {
		p := s.p.Part(part)
		return p != nil && hasBranch(s.v.set.Models[p.Kind], branch)
	}
	return s.link(name) != nil
}

func hasBranch(m *trees.Model, name string) bool {
	return m != nil && slices.ContainsFunc(m.Branches, func(b trees.ModelBranch) bool { return b.ID.Value == name })
}

// joint says whether there is a joint: of a part at a terminal, of a core at an
// end or the point there.
func (s *scope) joint(of, at string) bool {
	if part := s.p.Part(of); part != nil {
		_, there := part.Terminals[at]
		return there
	}
	l := s.link(of)
	return l != nil && (at == "from" || at == "to" || at == l.From || at == l.To)
}

// link finds a core, an earth core or a pole; nil if there is none.
func (s *scope) link(id string) *trees.Link { return s.links[id] }

// branches lists the branches like one that is not there: joints if it is
// written as one, those inside a part, or links.
func (s *scope) branches(like string) (known []string) {
	of, _, isJoint := strings.Cut(like, "@")
	part, _, inside := strings.Cut(like, "/")
	switch {
	case isJoint && s.p.Part(of) != nil:
		return prefixed(of+"@", slices.Sorted(maps.Keys(s.p.Part(of).Terminals)))
	case isJoint && s.link(of) != nil:
		return []string{of + "@from", of + "@to"}
	case inside && s.p.Part(part) != nil:
		if m := s.v.set.Models[s.p.Part(part).Kind]; m != nil {
			for _, b := range m.Branches {
				known = append(known, part+"/"+b.ID.Value)
			}
		}
		return known
	}
	return slices.Sorted(maps.Keys(s.links))
}
