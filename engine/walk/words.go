package walk

import (
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// readWords says what was read: "231.4 V" or the answer's words.
func (j *Job) readWords(r *reading) string {
	if len(r.check.Probes) == 0 {
		for _, x := range r.check.Answers {
			if x.ID == r.answer {
				return upper(x.Say)
			}
		}
		return r.answer
	}
	var parts []string
	for _, p := range r.check.Probes {
		if v, ok := r.values[p.As]; ok {
			w := valueWords(r.check, v)
			if len(r.check.Probes) > 1 {
				w = pairWords(p) + " " + w
			}
			parts = append(parts, w)
		}
	}
	return strings.Join(parts, ", ")
}

// quoted says what was read inside a sentence: the answer's words stand in
// quotes as they were offered.
func (j *Job) quoted(r *reading) string {
	if len(r.check.Probes) > 0 {
		return j.readWords(r)
	}
	for _, x := range r.check.Answers {
		if x.ID == r.answer {
			return "“" + x.Say + "”"
		}
	}
	return r.answer
}

func valueWords(c *trees.BoundCheck, v journal.Value) string {
	if v.Open {
		return "OL (above " + c.Quantity.Format(v.Low) + ")"
	}
	w := c.Quantity.Format(v.Low)
	if v.High != v.Low {
		w = c.Quantity.Format(v.Low) + " to " + c.Quantity.Format(v.High)
	}
	if v.Moving {
		w += ", moving"
	}
	return w
}

// pairWords names a probe by what it lies between: L–N, L–E, N–E where it is that.
func pairWords(p trees.BoundProbe) string {
	switch p.As {
	case "ln":
		return "L–N"
	case "le":
		return "L–E"
	case "ne":
		return "N–E"
	}
	return p.As
}

func upper(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}
