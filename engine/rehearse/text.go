package rehearse

import (
	"fmt"
	"strings"
)

// Layout says how a report is written.
type Layout struct {
	Lists  bool // name all that nothing reached, instead of counting it
	Narrow bool // for fewer than 80 columns
}

// Text writes the report for people: the figures, then those of each tree, plant
// and person, then what nothing reached, then the gates. It keeps to 80 columns,
// or to about 40 where it is narrow; names may be longer.
func (r *Report) Text(l Layout) string {
	var b strings.Builder
	all := r.Figures(nil)
	fmt.Fprintf(&b, "%s, %s, %s: %s\n\n", count(len(r.Plants), "plant"), count(len(r.Symptoms), "tree"), count(r.Faults, "fault"), count(all.Walks, "walk"))
	r.table(&b, all, l)
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
			r.rows(&b, group.names, group.of, l)
		}
	}
	r.rest(&b, l)
	b.WriteString("\n")
	for _, g := range r.Gates {
		b.WriteString(g.Text() + "\n")
	}
	return b.String()
}

// Text writes a gate and whether it holds.
func (g Gate) Text() string {
	return fmt.Sprintf("%-6s %s: %s", map[bool]string{true: "held", false: "BROKEN"}[g.Holds], g.Name, g.Found)
}

// table lists every verdict with its shares and what the word means: where the
// walk ended.
func (r *Report) table(b *strings.Builder, f Figures, l Layout) {
	fmt.Fprintf(b, "%-10s%7s%9s%11s", "", "walks", "of them", "by weight")
	if !l.Narrow {
		b.WriteString("  ended")
	}
	b.WriteString("\n")
	for _, v := range Verdicts() {
		n := f.Of[v]
		if v == PassedOn {
			fmt.Fprintf(b, "%-10s%7d%9s%11s", v, n.Cases, "apart", "apart")
		} else {
			fmt.Fprintf(b, "%-10s%7d%8.1f%%%10.1f%%", v, n.Cases, 100*n.Share, 100*n.Weighted)
		}
		lead := "  "
		if l.Narrow {
			lead = "\n  "
		}
		b.WriteString(lead + v.Meaning() + "\n")
	}
}

// short are the verdicts as heads of narrow columns, each a column wider than
// its head, in the order of Verdicts.
var short = []string{"exact", "group", "refer", " pass", "unres", "wrong", "unsafe"}

// rows gives one line of figures for each name, or where there is no room for
// columns its name and under it what there is of each verdict.
func (r *Report) rows(b *strings.Builder, names []string, of func(*Case) string, l Layout) {
	b.WriteString("\n")
	if !l.Narrow {
		for _, head := range short {
			fmt.Fprintf(b, "%*s", len(head)+1, head)
		}
		fmt.Fprintf(b, "%6s%6s\n", "mean", "worst")
	}
	for _, n := range names {
		f := r.Figures(func(c *Case) bool { return of(c) == n })
		if l.Narrow {
			fmt.Fprintf(b, "%s\n  %s\n", n, f.words())
			continue
		}
		for i, v := range Verdicts() {
			fmt.Fprintf(b, "%*d", len(short[i])+1, f.Of[v].Cases)
		}
		name := folded(n)
		fmt.Fprintf(b, "%6.1f%6.0f  %s\n", f.Mean, f.Worst, strings.Join(name, fmt.Sprintf("\n%*s", rowColumns, "")))
	}
}

// rowColumns is what the figures of a row take, in columns; names have the rest
// of 80.
const rowColumns = 57

// folded breaks a name that a row has no room for, behind a space or a hyphen.
func folded(name string) (out []string) {
	for room := 80 - rowColumns; len(name) > room; {
		at := strings.LastIndexAny(name[:room], " -") + 1
		if at == 0 {
			at = room
		}
		out, name = append(out, strings.TrimRight(name[:at], " ")), name[at:]
	}
	return append(out, name)
}

// words writes the verdicts that occurred, and the minutes.
func (f Figures) words() string {
	var out []string
	for _, v := range Verdicts() {
		if n := f.Of[v].Cases; n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, v))
		}
	}
	if f.Walks == 0 {
		return "none"
	}
	return strings.Join(append(out, fmt.Sprintf("%.1f min on average, %.0f at worst", f.Mean, f.Worst)), ", ")
}

// Words writes how many walks came to which verdict: "4 walks: 3 exact, 1 wrong".
func (f Figures) Words() string { return count(f.Walks, "walk") + ": " + f.words() }

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
