package trees

import (
	"maps"
	"slices"
)

// Has says whether the plant has a thing of one of the [ParamKinds]. Words and
// settings are free: every plant has those.
func (p *Plant) Has(kind, id string) bool {
	switch kind {
	case "point":
		return p.Point(id) != nil
	case "part":
		return p.Part(id) != nil
	case "call":
		return p.Call(id) != nil
	case "chain":
		return p.Chain(id) != nil
	case "core":
		return p.Core(id) != nil
	case "device":
		return p.Device(id) != nil
	case "enclosure":
		return p.Enclosure(id) != nil
	}
	return true
}

// Things lists the ids of the plant's things of a kind, in order; of settings
// those it says it has, of words none.
func (p *Plant) Things(kind string) []string {
	switch x := &p.index; kind {
	case "point":
		return slices.Sorted(maps.Keys(x.points))
	case "part":
		return slices.Sorted(maps.Keys(x.parts))
	case "call":
		return slices.Sorted(maps.Keys(x.calls))
	case "chain":
		return slices.Sorted(maps.Keys(x.chains))
	case "core":
		return slices.Sorted(maps.Keys(x.cores))
	case "device":
		return slices.Sorted(maps.Keys(x.devices))
	case "enclosure":
		return slices.Sorted(maps.Keys(x.enclosures))
	case "setting":
		return slices.Sorted(slices.Values(p.Settings))
	}
	return nil
}

// Chosen lists the words of a set that are true, in order.
func Chosen(set map[string]bool) []string {
	var out []string
	for word, yes := range set {
		if yes {
			out = append(out, word)
		}
	}
	slices.Sort(out)
	return out
}
