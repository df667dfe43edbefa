package walk

func cautionWords(a *Ask) []string {
	var out []string
	for _, c := range a.Cautions {
		out = append(out, "! "+c.Words)
	}
	if len(out) == 0 {
		return []string{"No caution stands here."}
	}
	return out
}

// why says what this question is for and how the walk came here.
func (j *Job) why() []string {
	var out []string
	a := j.aim()
	if a != nil && a.check != nil && a.step != nil {
		if r := j.tooFar(a); r != nil { // what it would be is not worded for these hands
			return append([]string{upper(r.Why) + "."}, j.allPossible()...)
		}
	}
	if a != nil && a.check != nil {
		if a.step != nil && a.step.Why != "" {
			out = append(out, a.step.Why)
		}
		if a.check.Why != "" {
			out = append(out, a.check.Why)
		}
		if a.check.Else != "" {
			out = append(out, "What else could read the same: "+a.check.Else)
		}
		if a.check.Check.Source != "" {
			out = append(out, "Where it comes from: "+a.check.Check.Source)
		}
	}
	if n := len(j.mind.trail); n > 0 {
		p := j.mind.trail[n-1]
		if p.read != nil && p.branch >= 0 {
			out = append(out, "It came here because "+checkName(p.read.check)+" gave "+j.readWords(p.read)+": "+p.step.Branches[p.branch].Meaning+".")
		}
	}
	if j.mind.place.Refer != nil && j.mind.graph != nil {
		out = append(out, j.allPossible()...)
	}
	if len(out) == 0 {
		return []string{"It is asked of every job before anything is touched."}
	}
	return out
}
