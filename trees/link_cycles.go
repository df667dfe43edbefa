package trees

import (
	"strings"

	"faultwalk/trees/strict"
)

// usage is one thing using another of its kind.
type usage struct {
	to string
	at strict.Text
}

// cycles reports checks whose expectation needs themselves, and routines that
// call themselves: neither could ever be bound.
func (l *loader) cycles() {
	checks, routines := map[string][]usage{}, map[string][]usage{}
	for id, c := range l.set.Checks {
		for _, u := range c.Uses {
			checks[id] = uses(checks[id], u.Check)
		}
	}
	for id, r := range l.set.Routines {
		for _, s := range r.Steps {
			routines[id] = uses(routines[id], s.Routine)
		}
	}
	reportCycles(keys(l.set.Checks), checks, "the expectation of the check %q needs itself: %s")
	reportCycles(keys(l.set.Routines), routines, "the routine %q calls itself: %s")
}

func uses(all []usage, t strict.Text) []usage {
	ref, err := ParseRef(t.Value)
	if err != nil {
		return all
	}
	return append(all, usage{ref.Name, t})
}

// reportCycles follows each thing once and reports where it comes back.
func reportCycles(ids []string, graph map[string][]usage, format string) {
	done, path := map[string]bool{}, []string(nil)
	var visit func(id string)
	visit = func(id string) {
		path = append(path, id)
		for _, u := range graph[id] {
			switch start := indexOf(path, u.to); {
			case start >= 0:
				u.at.Problem(format, u.to, strings.Join(append(path[start:len(path):len(path)], u.to), " → "))
			case !done[u.to]:
				visit(u.to)
			}
		}
		path = path[:len(path)-1]
		done[id] = true
	}
	for _, id := range ids {
		if !done[id] {
			visit(id)
		}
	}
}

func indexOf(all []string, one string) int {
	for i, s := range all {
		if s == one {
			return i
		}
	}
	return -1
}
