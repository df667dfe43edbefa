package walk

import (
	"fmt"
	"slices"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// early takes a reading known beforehand: CHECK=VALUE, several values of one
// check parted by a slash, a look by its answer.
func (j *Job) early(text string) (taken, error) {
	name, values, ok := strings.Cut(text, "=")
	if !ok || j.mind.graph == nil {
		return taken{}, &Refused{"expected CHECK=VALUE, such as: triple-at at permanent-live=231/231/0.4"}
	}
	ref, err := trees.ParseRef(strings.TrimSpace(name))
	if err != nil {
		return taken{}, &Refused{err.Error()}
	}
	c := j.mind.graph.Check(ref.String())
	if c == nil {
		return taken{}, &Refused{fmt.Sprintf("this tree takes no check %q on this plant", ref)}
	}
	if r := j.tooFar(&aim{check: c, need: c.Need}); r != nil && r.Kind == safety.Hands {
		return taken{}, &Refused{"it counts only from hands that may take it: " + r.Why}
	}
	if r := j.mind.now[c.ID]; r != nil {
		return taken{}, &Refused{c.ID + " was given already: " + j.readWords(r) + "; take that back first"}
	}
	b := &journal.Read{Check: c.ID, Measured: c.Measured(), Purpose: journal.ForEarly}
	if len(c.Probes) == 0 {
		b.Answer = strings.TrimSpace(values)
		if !answers(c, b.Answer) {
			return taken{}, &Refused{fmt.Sprintf("%q is no answer to %s", b.Answer, checkName(c))}
		}
		return j.concluded(&aim{check: c, purpose: journal.ForEarly}, b), nil
	}
	typed := strings.Split(values, "/")
	if len(typed) > len(c.Probes) {
		return taken{}, &Refused{fmt.Sprintf("%s takes at most %d readings, parted by /", c.ID, len(c.Probes))}
	}
	return j.earlyValues(c, b, typed)
}

func answers(c *trees.BoundCheck, id string) bool {
	for _, a := range c.Answers {
		if a.ID == id {
			return true
		}
	}
	return false
}

// earlyValues reads one value after the other, and asks back where a digit may
// be lost.
func (j *Job) earlyValues(c *trees.BoundCheck, b *journal.Read, typed []string) (taken, error) {
	if len(typed) == 0 {
		return j.concluded(&aim{check: c, purpose: journal.ForEarly}, b), nil
	}
	p := c.Probes[len(b.Values)]
	r, err := measurements.Parse(c.Quantity, typed[0])
	if err != nil {
		return taken{}, &Refused{err.Error()}
	}
	then := func(j *Job, r measurements.Reading) (taken, error) {
		v, err := j.value(c, p, r)
		if err != nil {
			return taken{}, err
		}
		next := *b
		next.Values = append(slices.Clone(b.Values), v)
		return j.earlyValues(c, &next, typed[1:])
	}
	if meant, ok := j.slip(c, p, r); ok {
		j.aside = j.slipStage(c, r, meant, then)
		return taken{}, nil
	}
	return then(j, r)
}
