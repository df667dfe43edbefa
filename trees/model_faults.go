package trees

import (
	"maps"
	"slices"
	"strings"

	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// faults checks that the changes of a part's faults name what its model has.
// Of links, and where a $ stands for something, only a plant can tell.
func (m *modelCheck) faults() {
	seen := map[string]bool{}
	for _, f := range m.Faults {
		if seen[f.ID.Value] && f.ID.Value != "" {
			f.ID.Problem("the fault %q comes twice", f.ID.Value)
		}
		seen[f.ID.Value] = true
		for _, t := range f.Do {
			if c, err := ParseChange(t.Value); err == nil && !slices.Contains(LinkKinds, m.Kind) {
				m.change(t, c)
			}
		}
	}
}

func (m *modelCheck) change(t strict.Text, c Change) {
	if c.Thing != "" || strings.ContainsAny(c.Name, "$/@") {
		return
	}
	switch c.Verb {
	case "lock", "start":
		holds, known := m.holds[c.Name]
		if !known {
			t.Problem("%v", formula.Unknown("a variable of this model", c.Name, m.variables()))
		} else if err := holds.Fits(c.Name, c.To); err != nil {
			t.ProblemAt(c.toAt(t), "%v", err)
		}
	case "open", "ohms":
		if !m.branches[c.Name] {
			t.Problem("%v", formula.Unknown("a branch of this model", c.Name, slices.Sorted(maps.Keys(m.branches))))
		}
	}
}

func (m *modelCheck) variables() []string {
	var names []string
	for _, v := range m.Variables {
		names = append(names, v.ID.Value)
	}
	return names
}
