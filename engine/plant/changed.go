package plant

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"faultwalk/engine/network"
)

// branchOf finds the branch that a change names: in a part "winding" or "@in",
// of a link "core", "core@from", "core@to" or "pole", of an assembly
// "part/winding", "part@in", "core@to" or "device.1".
func (b *builder) branchOf(name string, at place) (int, error) {
	full := name
	switch {
	case at.part != nil && strings.HasPrefix(name, "@"):
		full = at.id + name
	case at.part != nil && !strings.ContainsAny(name, "/@"):
		full = at.id + "/" + name
	case at.link != nil && (name == "core" || name == "pole"):
		full = at.id
	case at.link != nil && strings.HasPrefix(name, "core@"):
		full = at.id + strings.TrimPrefix(name, "core")
	}
	if i, ok := b.branchAt[full]; ok {
		return i, nil
	}
	if core, end, ok := strings.Cut(full, "@"); ok {
		for _, l := range b.Plant.Links {
			if l.ID == core && (l.From == end || l.To == end) {
				side := "@from"
				if l.To == end {
					side = "@to"
				}
				return b.branchAt[core+side], nil
			}
		}
	}
	return 0, fmt.Errorf("there is no branch %q%s", full, hint(full, slices.Sorted(maps.Keys(b.branchAt))))
}

// nodeAt finds the node that a change names: in a part its terminal or node,
// else a point of the plant.
func (b *builder) nodeAt(name string, at place) (network.Node, error) {
	names := []string{name}
	if at.part != nil {
		names = []string{at.id + "/" + name, at.id + "." + name, name}
	}
	for _, n := range names {
		if i, ok := b.net.Find(n); ok {
			return i, nil
		}
	}
	return 0, fmt.Errorf("there is no terminal, node or point %q%s", name, hint(name, b.namesAt(at)))
}

// namesAt are the names by which a change may call a node.
func (b *builder) namesAt(at place) []string {
	names := b.Plant.Things("point")
	if at.part == nil {
		return names
	}
	for _, n := range b.net.Names {
		for _, sep := range []string{"/", "."} {
			if own, ok := strings.CutPrefix(n, at.id+sep); ok {
				names = append(names, own)
			}
		}
	}
	return names
}
