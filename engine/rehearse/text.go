package rehearse

import (
	"fmt"
	"strings"
)

// Text writes the report for people: the figures, then those of each tree, plant
// and person, then what nothing reached. With lists it names all of that.
func (r *Report) Text(lists bool) string {
	var b strings.Builder
	all := r.Figures(nil)
	fmt.Fprintf(&b, "%s, %s, %s: %s\n\n", count(len(r.Plants), "plant"), count(len(r.Symptoms), "tree"), count(r.Faults, "fault"), count(all.Walks, "walk"))
	r.table(&b, all)
	fmt.Fprintf(&b, "\nminutes: %.1f on average, by weight; %.0f at worst\n", all.Mean, all.Worst)
	fmt.Fprintf(&b, "the meter moved the plant in %s; a proof of dead found volts in %s\n", count(all.Moved, "walk"), count(all.Halts, "walk"))
	for _, group := range []struct {
		names []string
		of    func(*Case) string
	}{
		{r.Symptoms, func(c *Case) string { return c.Symptom }},
		{r.Plants, func(c *Case) string { return c.Plant }},
		{r.Persons, func(c *Case) string { return c.Person }},
	} {
		if len(group.names) > 1 {
			r.rows(&b, group.names, group.of)
		}
	}
	r.rest(&b, lists)
	b.WriteString("\n")
	for _, g := range r.Gates {
		fmt.Fprintf(&b, "%-6s %s: %s\n", map[bool]string{true: "held", false: "BROKEN"}[g.Holds], g.Name, g.Found)
	}
	return b.String()
}

// table lists every verdict with its shares.
func (r *Report) table(b *strings.Builder, f Figures) {
	fmt.Fprintf(b, "%-12s %6s %9s %11s\n", "", "walks", "of them", "by weight")
	for _, v := range Verdicts() {
		n := f.Of[v]
		if v == PassedOn {
			fmt.Fprintf(b, "%-12s %6d %9s %11s\n", v, n.Cases, "apart", "")
			continue
		}
		fmt.Fprintf(b, "%-12s %6d %8.1f%% %10.1f%%\n", v, n.Cases, 100*n.Share, 100*n.Weighted)
	}
}

// short are the verdicts as heads of narrow columns, in the order of Verdicts.
var short = []string{"exact", "group", "refer", "pass", "none", "wrong", "hurt"}

// rows gives one line of figures for each name.
func (r *Report) rows(b *strings.Builder, names []string, of func(*Case) string) {
	b.WriteString("\n")
	for _, head := range short {
		fmt.Fprintf(b, "%6s", head)
	}
	fmt.Fprintf(b, "%7s%6s\n", "mean", "worst")
	for _, n := range names {
		f := r.Figures(func(c *Case) bool { return of(c) == n })
		for _, v := range Verdicts() {
			fmt.Fprintf(b, "%6d", f.Of[v].Cases)
		}
		fmt.Fprintf(b, "%7.1f%6.0f  %s\n", f.Mean, f.Worst, n)
	}
}

// rest says what is no case, and what nothing reached.
func (r *Report) rest(b *strings.Builder, lists bool) {
	var noTree, silent, unnamed, unfound, healthy []string
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
	b.WriteString("\n")
	for _, part := range []struct {
		words string
		list  []string
	}{
		{"signs that a healthy plant shows", healthy},
		{"signs told that have no tree yet", noTree},
		{"faults without a sign", silent},
		{"causes that no fault is", unnamed},
		{"causes that no walk ended at", unfound},
		{"branches never taken", r.Untaken},
	} {
		fmt.Fprintf(b, "%s: %d\n", part.words, len(part.list))
		if lists {
			for _, line := range part.list {
				b.WriteString("  " + line + "\n")
			}
		}
	}
}

// Text writes one case: what it was and where it ended, and with steps how it
// came there.
func (c *Case) Text(steps bool) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%-10s %s, %s, %s → %s, %.0f min", c.Verdict, c.Plant, c.Symptom, c.Fault, c.End, c.Minutes)
	for _, extra := range []string{c.Person, c.Forgotten} {
		if extra != "" {
			b.WriteString(", " + extra)
		}
	}
	if c.Shadowed {
		b.WriteString(", told beside a sign that goes first")
	}
	if c.Draw > 0 {
		fmt.Fprintf(&b, ", draw %d", c.Draw)
	}
	b.WriteString("\n")
	if c.Why != "" {
		b.WriteString("           " + c.Why + "\n")
	}
	if steps {
		for _, s := range c.Steps() {
			b.WriteString("  " + s + "\n")
		}
	}
	return b.String()
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
