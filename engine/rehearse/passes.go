package rehearse

// followPasses judges the walks that were passed on to the tree of another sign
// by where that tree ends for the same fault: a pass is good only where the next
// walk is.
func followPasses(cases []*Case) {
	type key struct {
		fault   *fault
		draw    int
		symptom string
	}
	of := map[key]*Case{}
	for _, c := range cases {
		of[key{c.fault, c.Draw, c.Symptom}] = c
	}
	for _, c := range cases {
		if c.Verdict != PassedOn {
			continue
		}
		seen := map[*Case]bool{}
		next := c
		for next != nil && next.Verdict == PassedOn && !seen[next] {
			seen[next] = true
			next = of[key{c.fault, c.Draw, next.end.to.Pass}]
		}
		c.Verdict, c.Why = passed(c, next, seen[next])
	}
}

// passed is what a pass comes to: next is the last walk it leads to, nil where
// no tree takes it up; round where it comes back to one it came through.
func passed(c, next *Case, round bool) (Verdict, string) {
	switch {
	case next == nil:
		return Unresolved, "it is passed on to " + c.end.to.Pass + ", and no tree of this plant takes it up"
	case round:
		return Unresolved, "it is passed on to " + c.end.to.Pass + ", which passes it back"
	case next.Verdict == Wrong || next.Verdict == Unresolved || next.Verdict == Unsafe:
		return next.Verdict, "it is passed on to " + next.Symptom + ", which ends " + string(next.Verdict) + ": " + next.Why
	}
	return PassedOn, c.Why
}
