package rehearse

import (
	"maps"

	"faultwalk/trees"
)

// withHandle gives the devices that are off while a check of a device is taken:
// its own handle is on, as its poles are read through, where other devices
// keep the enclosures dead.
func withHandle(p *trees.Plant, c *trees.BoundCheck, off map[string]bool) map[string]bool {
	for _, param := range c.Check.Of {
		if param.Kind != "device" {
			continue
		}
		ref, err := trees.ParseRef(c.ID)
		if err != nil {
			return off
		}
		id, _ := ref.Arg(param.Name)
		if rest := without(off, id); off[id] && dead(p, c.Need.Enclosures, rest) {
			return rest
		}
	}
	return off
}

func without(off map[string]bool, id string) map[string]bool {
	rest := maps.Clone(off)
	delete(rest, id)
	return rest
}

// dead says whether the devices keep every supply out of the enclosures.
func dead(p *trees.Plant, boxes []string, off map[string]bool) bool {
	for _, box := range boxes {
		for _, s := range p.Reaching(box) {
			if !p.DeadFrom(s, box, off) {
				return false
			}
		}
	}
	return true
}
