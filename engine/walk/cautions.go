package walk

import (
	"slices"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
)

func ids(cs []Caution) []string {
	var out []string
	for _, c := range cs {
		out = append(out, c.ID)
	}
	return out
}

// cautionsFor collects the cautions of acts, each once.
func (j *Job) cautionsFor(acts ...journal.Act) []Caution {
	var triggers []string
	for _, a := range acts {
		triggers = append(triggers, safety.Cautions(j.context(), safety.OfAct(a))...)
	}
	out := j.cautions(triggers...)
	for i := range out {
		out[i].Again = out[i].Again && !(j.mind.hands.Phone && covers(acts) && j.ofCovers(out[i].ID))
	}
	return out
}

// covers says whether a cover comes off or a box is proved: by phone what keeps
// people safe there is said in full each time (handbook 5.2).
func covers(acts []journal.Act) bool {
	return slices.ContainsFunc(acts, func(a journal.Act) bool { return a.Do == journal.ActOpen || a.Do == journal.ActProve })
}

// ofCovers says whether a caution belongs to covers and to proving dead.
func (j *Job) ofCovers(id string) bool {
	for _, c := range j.lib.Set.Cautions {
		if c.ID == id {
			return meets(c.At, []string{"cover", "dead"})
		}
	}
	return false
}

// cautions gives those of the triggers, in the order of the safety data.
func (j *Job) cautions(triggers ...string) []Caution {
	var out []Caution
	for _, c := range j.lib.Set.Cautions {
		if meets(c.At, triggers) {
			out = append(out, Caution{ID: c.ID, Words: strings.TrimSpace(c.Words), Again: j.mind.shown[c.ID]})
		}
	}
	return out
}

func meets(at, triggers []string) bool {
	for _, a := range at {
		for _, t := range triggers {
			if a == t {
				return true
			}
		}
	}
	return false
}
