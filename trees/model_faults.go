package trees

import (
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
		typ, known := m.types[c.Name]
		switch _, word := Literal(c.To); {
		case !m.variable(c.Name):
			t.Problem("%v", formula.Unknown("a variable of this model", c.Name, m.variables()))
		case known && word != (typ == formula.Wordy):
			t.Problem("%q is set to %q; it is %s", c.Name, clip(c.To), typ)
		}
	case "open", "ohms":
		if !m.branches[c.Name] {
			t.Problem("%v", formula.Unknown("a branch of this model", c.Name, sortedKeys(m.branches)))
		}
	}
}

func (m *modelCheck) variable(name string) bool { return slices.Contains(m.variables(), name) }

func (m *modelCheck) variables() []string {
	var names []string
	for _, v := range m.Variables {
		names = append(names, v.ID.Value)
	}
	return names
}
