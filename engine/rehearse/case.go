package rehearse

import (
	"fmt"
	"math"
	"slices"

	"faultwalk/engine/walk"
	"faultwalk/trees"
)

// Case is one walk: a plant with a fault in it, a sign it shows, the person
// who walked that sign's tree, and where it ended.
type Case struct {
	Plant, Symptom, Fault, Words string
	Person, Forgotten            string
	Draw                         int  // 0: nominal values, perfect meters
	Shadowed                     bool // a sign that shows as well would be told first
	Weight                       float64
	Verdict                      Verdict
	End, Why                     string
	Minutes                      float64
	Moved, Halts                 int // how often the meter moved the plant, and a proof found volts

	fault     *fault
	amiss     *trees.BoundCheck // what a repair has to put right
	second    Second            // what came of its second reading, and why
	secondWhy string
	end       end
	node      *node
	hops      []hop
}

// Steps writes what happened in the walk, a line for each thing; nothing where
// it was not kept.
func (c *Case) Steps() []string { return trace(c.hops) }

// Place is where in the trees the walk was ended, file:line:col: at a branch, or
// at the step that nothing led on from. Empty where the steps were not kept.
func (c *Case) Place() string {
	for _, h := range slices.Backward(c.hops) {
		switch {
		case h.step == nil:
		case h.branch >= 0:
			return h.step.Branches[h.branch].Pos.String()
		default:
			return h.step.Pos.String()
		}
	}
	return ""
}

// Right names the ends at which the walk would have found the fault: "cause
// burnt of x", "refer electrician". None: the trees need not find it.
func (c *Case) Right() []string { return c.fault.right }

// Meter says at which checks the meter itself moved the plant, and what; nothing
// where the steps were not kept.
func (c *Case) Meter() []string {
	var out []string
	for _, h := range c.hops {
		if h.step == nil && h.read != nil {
			out = append(out, noted(h))
		}
	}
	return out
}

// keeps says whether the steps of a case are kept: always of a nominal one, and
// under noise of one that is guilty or may yet become so.
func (o Options) keeps(c *Case) bool {
	return c.Draw == 0 || c.Verdict == Wrong || c.Verdict == Unsafe || c.Verdict == Grouped || o.Trace != nil && o.Trace(c)
}

// NoTree is a sign that a fault shows and that no tree serves.
type NoTree struct{ Plant, Fault, Sign string }

// trace writes what happened in a walk, a line for each thing.
func trace(hops []hop) []string {
	var out []string
	for _, h := range hops {
		switch {
		case h.way != nil && h.note == "":
			out = append(out, fmt.Sprintf("    %s: %g min", acts(h.way), h.way.minutes))
		case h.step == nil:
			out = append(out, "    "+noted(h))
		default:
			out = append(out, stepLine(h))
		}
	}
	return out
}

// noted is what was found between two steps, with the check it was found at.
func noted(h hop) string {
	if h.read == nil {
		return h.note
	}
	return h.read.check.ID + ": " + h.note
}

func stepLine(h hop) string {
	line := h.step.Path + ": "
	if h.read != nil {
		line += h.read.check.ID + " = " + h.read.String() + " → "
	} else {
		line += h.step.Check.ID + ": "
	}
	if h.branch >= 0 {
		br := h.step.Branches[h.branch]
		line += br.Meaning
		if to := endWords(end{to: br.To}); br.To.Go == "" {
			line += " → " + to
		}
		return line
	}
	return line + h.note
}

// acts writes the acts of a way in one line.
func acts(w *way) string {
	out := ""
	for i, a := range w.acts {
		if i > 0 {
			out += ", "
		}
		out += a.Do + " " + a.On
		if a.Minutes > 0 {
			out += fmt.Sprintf(" %g min", walk.ActMinutes(a))
		}
	}
	return out
}

// tenths rounds to one decimal, for reports.
func tenths(v float64) float64 { return math.Round(v*10) / 10 }
