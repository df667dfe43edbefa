package trees

import (
	"errors"
	"slices"

	"faultwalk/trees/prove"
	"faultwalk/trees/strict"
)

// vocabulary gives the names that conditions on a check may use.
func (s *Set) vocabulary(c *Check) prove.Vocabulary {
	v := prove.Vocabulary{Constants: EdgeNames[:3], Facts: readingFacts}
	if c.Expect.Value != "" {
		v.Constants = EdgeNames
	}
	for _, p := range c.Probes {
		v.Readings = append(v.Readings, prove.Reading{Name: p.As, Bands: s.bandNames(c.Scale, p.Modes)})
	}
	return v
}

// bandNames lists the bands of a scale in the given modes, each once.
func (s *Set) bandNames(scale string, modes []string) []string {
	var names []string
	v := s.Scales[scale]
	if v == nil {
		return nil
	}
	for _, group := range v.Modes {
		if !sharesMode(group.Modes, modes) {
			continue
		}
		for _, b := range group.Bands {
			if !slices.Contains(names, b.Name) {
				names = append(names, b.Name)
			}
		}
	}
	return names
}

// sharesMode says whether bands for the modes of a group serve a probe; no modes means any.
func sharesMode(group, probe []string) bool {
	if len(group) == 0 || len(probe) == 0 {
		return true
	}
	for _, m := range probe {
		if slices.Contains(group, m) {
			return true
		}
	}
	return false
}

// linkChecks checks the healthy verdict of every measurement.
func (l *loader) linkChecks() {
	prover := prove.New()
	for _, id := range keys(l.set.Checks) {
		c := l.set.Checks[id]
		if c.Look.Value == "" {
			l.conditionOn(prover, c, c.Good)
			l.modesServed(c)
		}
	}
}

// modesServed reports a mode in which the scale has no bands.
func (l *loader) modesServed(c *Check) {
	scale := l.set.Scales[c.Scale]
	if scale == nil {
		return
	}
	for _, p := range c.Probes {
		for _, m := range p.Modes {
			if len(l.set.bandNames(c.Scale, []string{m})) == 0 {
				p.From.Problem("the scale %q has no bands for the mode %q", c.Scale, m)
			}
		}
	}
}

// conditionOn checks a condition over the readings of a check.
func (l *loader) conditionOn(prover *prove.Prover, c *Check, condition strict.Text) {
	if condition.Value == "" || c.Scale != "" && l.set.Scales[c.Scale] == nil {
		return
	}
	switch l.conditions++; {
	case l.conditions == maxConditions:
		condition.Problem("more than %d conditions; this one and the rest are not looked at", maxConditions)
		return
	case l.conditions > maxConditions:
		return
	}
	reportCondition(prover, condition, "a condition on "+c.ID, l.set.vocabulary(c))
}

// linkStops checks the rows that end a job: they judge live to neutral, live to earth and neutral to earth by the
// bands of the mains.
func (l *loader) linkStops() {
	prover, v := prove.New(), prove.Vocabulary{Constants: EdgeNames[:3], Facts: readingFacts}
	bands := l.set.bandNames("mains", nil)
	for _, name := range []string{"ln", "le", "ne"} {
		v.Readings = append(v.Readings, prove.Reading{Name: name, Bands: bands})
	}
	for _, s := range l.set.Stops {
		if s.If.Value != "" {
			reportCondition(prover, s.If, "a stop", v)
		}
	}
}

func reportCondition(prover *prove.Prover, t strict.Text, what string, v prove.Vocabulary) {
	_, err := prover.Compile(t.Value, v)
	var all prove.Errors
	errors.As(err, &all)
	report(t, what, all)
}
