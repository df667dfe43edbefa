package walk

import (
	"strings"

	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// standing says in words what stands otherwise than it was found and can hurt
// or mislead whoever comes next: what is open and whether power is on there, what
// is off, which locks are on, what is unplugged.
func (j *Job) standing() []string {
	if j.world == nil {
		return nil
	}
	var out []string
	for _, e := range j.open() {
		out = append(out, "Open: "+e.Words+", "+j.power(e)+".")
	}
	list := func(label string, words []string) {
		if len(words) > 0 {
			out = append(out, label+strings.Join(words, ", ")+".")
		}
	}
	var off, locked, plugs []string
	for _, d := range j.mind.plant.Devices {
		k := j.world.Devices[d.ID]
		off, locked = named(off, k.Off, d.Words), named(locked, k.Locked, d.Words)
	}
	for _, g := range j.mind.plant.Plugs {
		plugs = named(plugs, j.world.Plugs[g.ID], g.Words)
	}
	list("Off: ", off)
	list("Locks on: ", locked)
	list("Unplugged: ", plugs)
	return out
}

// named adds the words of what does not stand as found.
func named(to []string, s safety.State, words string) []string {
	switch s {
	case safety.AsFound:
		return to
	case safety.Unsure:
		words += " (not seen since)"
	}
	return append(to, words)
}

// open lists the mains enclosures that may stand open.
func (j *Job) open() []*trees.Enclosure {
	var out []*trees.Enclosure
	for _, e := range j.mind.plant.Enclosures {
		if e.Mains && j.world.Enclosures[e.ID].Open != safety.AsFound {
			out = append(out, e)
		}
	}
	return out
}

// power says what is known of the power in an enclosure: on unless each supply
// that reaches it is kept out by something we switched off.
func (j *Job) power(e *trees.Enclosure) string {
	if f := j.world.Found; f != nil && f.Enclosure == e.ID {
		return "a voltage was found in it"
	}
	if j.world.Isolated(e.ID) {
		if j.world.Proved(e.ID) {
			return "off, locked and proved dead"
		}
		return "off and locked, not proved dead"
	}
	off := map[string]bool{}
	for id, d := range j.world.Devices {
		off[id] = d.Off != safety.AsFound
	}
	for _, s := range j.mind.plant.Reaching(e.ID) {
		if !j.mind.plant.DeadFrom(s, e.ID, off) {
			return "power is on there"
		}
	}
	return "off but not locked for certain"
}

// exposed lists in words what stands open and is not kept out of power for certain.
func (j *Job) exposed() []string {
	if j.world == nil {
		return nil
	}
	var out []string
	for _, e := range j.open() {
		found := j.world.Found != nil && j.world.Found.Enclosure == e.ID
		switch power := j.power(e); {
		case found:
			out = append(out, "open with a voltage found in it: "+e.Words)
		case power == "power is on there":
			out = append(out, "open with power on: "+e.Words)
		case !j.world.Isolated(e.ID):
			out = append(out, "open, "+power+": "+e.Words)
		}
	}
	return out
}
