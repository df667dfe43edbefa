package rehearse

import "faultwalk/trees"

// proveGroups looks at every case that ended at a group: the group stands
// where no check of these hands divides the cause that is there from another
// of the group. Faults that end at the group count; a cause none of whose
// faults ends there counts with all of them.
func proveGroups(m *matrix, cases []*Case) {
	arrived := map[string][]*fault{}
	for _, c := range cases {
		if c.Draw == 0 && len(c.end.to.Causes) > 1 {
			arrived[c.place()] = append(arrived[c.place()], c.fault)
		}
	}
	for _, c := range cases {
		if c.Verdict != Grouped {
			continue
		}
		if why := m.lazy(c, arrived[c.place()]); why != "" {
			c.Verdict, c.Why = Wrong, why
		}
	}
}

// place names the group a case ended at, in its tree.
func (c *Case) place() string { return c.Symptom + "|" + group(c.end.to.Causes) }

// lazy says why a group could have been divided for this case; empty if not.
func (m *matrix) lazy(c *Case, arrived []*fault) string {
	for _, mine := range c.end.to.Causes {
		if !c.fault.is(mine.ID) {
			continue
		}
		for _, other := range c.end.to.Causes {
			if c.fault.is(other.ID) {
				continue
			}
			key := [3]string{c.place(), min(mine.ID, other.ID), max(mine.ID, other.ID)}
			check, known := m.apart[key]
			if !known {
				m.about([]*trees.BoundCause{mine, other})
				check = m.divides(m.of(mine, other, c.Symptom, arrived), m.of(other, mine, c.Symptom, arrived))
				m.apart[key] = check
			}
			if check != "" {
				return "the group could have been divided: " + check + " tells " + mine.ID + " from " + other.ID
			}
		}
	}
	return ""
}
