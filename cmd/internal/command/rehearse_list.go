package command

import (
	"fmt"
	"slices"
	"strings"

	"faultwalk/engine/rehearse"
)

// guilty are the verdicts that are listed where nobody asked for a list.
var guilty = []string{string(rehearse.Wrong), string(rehearse.Unsafe)}

// rehearseShown is how many walks are listed where nobody asked for a list.
const rehearseShown = 10

// shown says whether a walk is listed for its verdict.
func (o rehearseFlags) shown(c *rehearse.Case) bool {
	switch {
	case o.given("show"):
	case o.fault != "":
		return true
	case o.moved:
		return false
	}
	return slices.Contains(o.show, string(c.Verdict))
}

// listed says whether a walk is listed at all.
func (o rehearseFlags) listed(c *rehearse.Case) bool {
	return o.all || o.shown(c) || o.moved && c.Moved > 0
}

// traced says whether the steps of a walk are kept to be written.
func (o rehearseFlags) traced(c *rehearse.Case) bool {
	if o.all {
		return o.asJSON
	}
	return o.listed(c)
}

// cases are the walks that are listed, under a line that says which.
func (o rehearseFlags) cases(r *rehearse.Report) []string {
	var lines []string
	left, count := 0, 0
	for _, c := range r.Cases {
		switch {
		case !o.listed(c):
		case count == rehearseShown && !o.all && !o.moved && !o.given("show"):
			left++
		default:
			if count++; count > 1 && !o.all {
				lines = append(lines, "")
			}
			lines = append(lines, o.caseLines(c)...)
		}
	}
	if left > 0 {
		lines = append(lines, "", fmt.Sprintf("and %d more; --show %s lists them all", left, strings.Join(o.show, ",")))
	}
	if count > 0 || o.moved || o.given("show") {
		lines = append([]string{"", fmt.Sprintf("%s: %d", o.heading(), count+left)}, lines...)
	}
	return lines
}

// heading says which walks are listed.
func (o rehearseFlags) heading() string {
	const meter = "in which the meter moved the plant"
	ended := "walks that ended " + strings.Join(o.show, " or ")
	switch {
	case o.all:
		return "every walk"
	case o.moved && o.given("show"):
		return ended + ", or " + meter
	case o.moved:
		return "walks " + meter
	}
	return ended
}

// caseLines writes one walk, with its steps where it is listed for its verdict
// and with what the meter moved where it is listed for that.
func (o rehearseFlags) caseLines(c *rehearse.Case) []string {
	lines := strings.Split(strings.TrimRight(c.Text(!o.all && o.shown(c)), "\n"), "\n")
	if o.moved && !o.shown(c) {
		for _, m := range c.Meter() {
			lines = append(lines, "    "+m)
		}
	}
	return lines
}

// oneFault shows the walks of one fault, or says why there is none.
func (o rehearseFlags) oneFault(r *rehearse.Report) []string {
	lines := []string{o.fault + ", " + r.Figures(nil).Words()}
	for _, c := range r.Cases {
		if o.listed(c) {
			lines = append(lines, "")
			lines = append(lines, strings.Split(strings.TrimRight(c.Text(true), "\n"), "\n")...)
		}
	}
	if len(r.Cases) == 0 {
		lines = append(lines, r.Unwalked(o.fault)...)
	}
	for _, g := range r.Gates {
		if !g.Holds {
			lines = append(lines, g.Text())
		}
	}
	return lines
}
