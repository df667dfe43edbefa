package rehearse

import (
	"fmt"
	"strings"
)

// Text writes one case: what it was and where it ended, and with steps how it
// came there.
func (c *Case) Text(steps bool) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%-10s %s, %s, %s → %s, %.0f min", c.Verdict, c.Plant, c.Symptom, c.Fault, c.End, c.Minutes)
	for _, extra := range []string{c.Person, c.left()} {
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
	if steps {
		c.because(&b)
		for _, s := range c.Steps() {
			b.WriteString("  " + s + "\n")
		}
	} else if c.Why != "" {
		b.WriteString("  why:       " + c.Why + "\n")
	}
	return b.String()
}

// because says what was there, where a walk should have ended and what ended it.
func (c *Case) because(b *strings.Builder) {
	right := strings.Join(c.Right(), ", or ")
	if right == "" {
		right = "none is named"
	}
	for _, l := range [][2]string{{"the fault:", c.Words}, {"right end:", right}, {"ended at:", c.Place()}, {"why:", c.Why}} {
		if l[1] != "" {
			fmt.Fprintf(b, "  %-10s %s\n", l[0], l[1])
		}
	}
}

// left is the supply that was forgotten, in words.
func (c *Case) left() string {
	if c.Forgotten == "" {
		return ""
	}
	return "the supply " + c.Forgotten + " left on"
}
