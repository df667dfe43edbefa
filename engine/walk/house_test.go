package walk_test

import (
	"slices"
	"sync"

	"faultwalk/engine/monitor"
	"faultwalk/engine/walk"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// house is the embedded trees, loaded once and read by every caller: each
// plant, and each symptom bound to it.
type house struct {
	lib      walk.Library
	plants   []string
	symptoms []string
	plant    map[string]*trees.Plant
	graphs   map[string][]*trees.Graph
}

var theHouse = sync.OnceValue(func() *house {
	set, problems := trees.Embedded()
	if len(problems) > 0 {
		panic(problems.Format(20))
	}
	h := &house{lib: walk.Library{Set: set, Kit: measurements.DefaultKit(), Build: "test"}, plant: map[string]*trees.Plant{}, graphs: map[string][]*trees.Graph{}}
	for id := range set.Plants {
		h.plants = append(h.plants, id)
	}
	for id := range set.Symptoms {
		h.symptoms = append(h.symptoms, id)
	}
	slices.Sort(h.plants)
	slices.Sort(h.symptoms)
	for _, id := range h.plants {
		h.plant[id], _ = set.Compose(id)
		for _, symptom := range h.symptoms {
			if g, _ := set.Bind(symptom, h.plant[id]); g != nil {
				h.graphs[id] = append(h.graphs[id], g)
			}
		}
	}
	return h
})

// monitor watches a job on one plant; it knows the checks and causes of every
// symptom there.
func (h *house) monitor(plant string) *monitor.Monitor {
	graphs := h.graphs[plant]
	checks := func(id string) *trees.BoundCheck {
		for _, g := range graphs {
			if c := g.Check(id); c != nil {
				return c
			}
		}
		return nil
	}
	causes := func(id string) *trees.BoundCause {
		for _, g := range graphs {
			if c := g.Cause(id); c != nil {
				return c
			}
		}
		return nil
	}
	return monitor.New(h.plant[plant], checks, causes)
}
