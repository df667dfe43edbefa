package sheet

import (
	"fmt"
	"slices"
)

// entry is one line of the course a job took: what begins an epoch, or one of
// the three things that happen to a check.
type entry struct {
	n       int
	Epoch   string
	Reading *Reading
	LeftOut *LeftOut
	Turn    *Turn
}

// course is what was read and what was not, in order, parted by the repairs.
func (s Sheet) course() []entry {
	var out []entry
	for i := range s.Readings {
		out = append(out, entry{n: s.Readings[i].Event, Reading: &s.Readings[i]})
	}
	for i := range s.LeftOut {
		out = append(out, entry{n: s.LeftOut[i].Event, LeftOut: &s.LeftOut[i]})
	}
	for i := range s.Turns {
		out = append(out, entry{n: s.Turns[i].Event, Turn: &s.Turns[i]})
	}
	repairs := s.repairs()
	for i, n := range repairs {
		out = append(out, entry{n: n, Epoch: afterWords(i+1, len(repairs))})
	}
	if len(repairs) > 0 {
		out = append(out, entry{Epoch: "Before the repair"})
	}
	slices.SortStableFunc(out, func(a, b entry) int { return a.n - b.n })
	return out
}

// repairs are the events of the repairs.
func (s Sheet) repairs() []int {
	var out []int
	for _, f := range s.Findings {
		if f.Repair != nil {
			out = append(out, f.Event)
		}
	}
	return out
}

// afterWords names the stretch after a repair.
func afterWords(n, of int) string {
	if of == 1 {
		return "After the repair"
	}
	return fmt.Sprintf("After repair %d", n)
}
