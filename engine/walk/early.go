package walk

import (
	"fmt"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// early takes a reading known beforehand: CHECK=VALUE, several values of one
// check parted by a slash, a look by its answer.
func (j *Job) early(text string) (taken, error) {
	name, values, ok := strings.Cut(text, "=")
	if !ok || j.mind.graph == nil {
		return taken{}, &Refused{"expected CHECK=VALUE, such as: supply-triple at unit-isolator=231/231/0.4"}
	}
	ref, err := trees.ParseRef(strings.TrimSpace(name))
	if err != nil {
		return taken{}, &Refused{err.Error()}
	}
	c := j.mind.graph.Check(ref.String())
	if c == nil {
		return taken{}, &Refused{fmt.Sprintf("this tree takes no check %q on this plant", ref)}
	}
	b := &journal.Read{Check: c.ID, Measured: c.Measured(), Purpose: journal.ForEarly, Verdict: "taken before it was asked for"}
	if len(c.Probes) == 0 {
		b.Answer = strings.TrimSpace(values)
		if !answers(c, b.Answer) {
			return taken{}, &Refused{fmt.Sprintf("%q is no answer to %s", b.Answer, checkName(c))}
		}
		return taken{bodies: []any{b}}, nil
	}
	return j.earlyValues(c, b, strings.Split(values, "/"))
}

func answers(c *trees.BoundCheck, id string) bool {
	for _, a := range c.Answers {
		if a.ID == id {
			return true
		}
	}
	return false
}

func (j *Job) earlyValues(c *trees.BoundCheck, b *journal.Read, typed []string) (taken, error) {
	if len(typed) > len(c.Probes) {
		return taken{}, &Refused{fmt.Sprintf("%s takes at most %d readings, parted by /", c.ID, len(c.Probes))}
	}
	for i, t := range typed {
		r, err := measurements.Parse(c.Quantity, t)
		if err != nil {
			return taken{}, &Refused{err.Error()}
		}
		o, ok := j.using(c, c.Probes[i])
		if !ok {
			return taken{}, &Refused{"no instrument of the kit reads " + c.ID}
		}
		v := journal.Value{As: c.Probes[i].As, Mode: o.mode, Meter: o.meter.ID, Typed: r.Typed, Low: r.Value.Lo, High: r.Value.Hi, Open: r.Open, Moving: r.Moving}
		if r.Open {
			v.Low = o.spec.Top()
		}
		b.Values = append(b.Values, v)
	}
	return taken{bodies: []any{b}, say: []string{"Taken in: " + c.ID + "."}}, nil
}
