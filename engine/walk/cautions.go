package walk

import (
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
	return j.cautions(triggers...)
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
