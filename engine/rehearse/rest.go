package rehearse

import (
	"fmt"
	"strings"
)

// rest says what is no case, and what nothing reached.
func (r *Report) rest(b *strings.Builder, l Layout) {
	b.WriteString("\n")
	r.seconds(b)
	for _, part := range r.unreached() {
		fmt.Fprintf(b, "%s: %d\n", part.words, len(part.list))
		if l.Lists {
			for _, line := range part.list {
				b.WriteString("  " + line + "\n")
			}
		}
	}
}

// unreached are the things that no walk came to, each kind with its words.
func (r *Report) unreached() []struct {
	words string
	list  []string
} {
	var noTree, silent, unnamed, unfound, healthy, unproved, silenced, failed []string
	for _, n := range r.NoTree {
		noTree = append(noTree, n.Plant+" "+n.Fault+": "+n.Sign)
	}
	for _, s := range r.Silent {
		silent = append(silent, strings.TrimSuffix(s.Plant+" "+s.Fault+": "+s.Why, ": "))
	}
	for _, u := range r.Unfound {
		if u.Named {
			unfound = append(unfound, u.Plant+" "+u.Cause)
		} else {
			unnamed = append(unnamed, u.Plant+" "+u.Cause)
		}
	}
	for _, s := range r.Signs {
		healthy = append(healthy, s.Plant+" "+s.Sign)
	}
	for _, u := range r.Unproved {
		unproved = append(unproved, u.Plant+" "+u.Check+" = "+u.Reads+" ("+u.For+")")
	}
	for _, u := range r.Silenced {
		silenced = append(silenced, u.Plant+" "+u.Cause+" with "+u.Rival+": "+u.Reads)
	}
	for _, f := range r.Failed {
		failed = append(failed, strings.Join(strings.Fields(f.Plant+" "+f.Fault+" "+f.Check), " ")+": "+f.Why)
	}
	return []struct {
		words string
		list  []string
	}{
		{"signs that a healthy plant shows", healthy},
		{"proofs of a repair that a healthy plant fails", unproved},
		{"second readings that a rival passes too", silenced},
		{"proofs that could not be simulated", failed},
		{"signs told that have no tree yet", noTree},
		{"faults without a sign", silent},
		{"causes that no fault is", unnamed},
		{"causes that no walk ended at", unfound},
		{"branches never taken that do not say why", r.Untaken},
		{"causes that nothing came to and that do not say why", r.Unreached},
		{"reasons for what nothing comes to that are not true", r.Untrue},
	}
}

// Unwalked says why a fault of a report has no case: it shows no sign, only
// signs that no tree serves, or others than those asked for. A line for each
// plant.
func (r *Report) Unwalked(fault string) []string {
	var out []string
	for _, s := range r.Silent {
		if s.Fault == fault {
			out = append(out, strings.TrimSuffix(s.Plant+": it shows no sign: "+s.Why, ": "))
		}
	}
	for _, n := range r.NoTree {
		if n.Fault == fault {
			out = append(out, n.Plant+": it shows "+n.Sign+", which has no tree yet")
		}
	}
	for _, a := range r.Aside {
		if a.Fault == fault {
			out = append(out, a.Plant+": it shows "+a.Sign+", and the walks of another sign were asked for")
		}
	}
	if len(out) == 0 && r.Knows(fault) {
		out = append(out, "as drawn it never shows a sign that has a tree")
	}
	return out
}
