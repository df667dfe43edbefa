package walk

import (
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// AnswerWords says an answer of the intake as it was offered; the id itself
// where it is none of those.
func (j *Job) AnswerWords(ask, choice string) string {
	offered := map[string][]Choice{
		"danger": append([]Choice{{ID: "none", Text: "none of these"}}, dangers...), "operator": operators,
		"hands": handKinds, "certificates": certificates, "watched": watches, "changed": changes, "told": askTold(j).Choices,
	}
	for _, c := range offered[ask] {
		if c.ID == choice {
			return c.Text
		}
	}
	return choice
}

// CheckWords says a check in words: its question, or where it is read.
func CheckWords(c *trees.BoundCheck) string {
	if c.Look != "" {
		return c.Look
	}
	return checkName(c)
}

// ProbeWords names a probe of a check by what it lies between: L–N, L–E, N–E
// where it is that.
func ProbeWords(as string) string { return pairWords(trees.BoundProbe{As: as}) }

// ValueWords says what was read in the trade's writing: "231.4 V".
func ValueWords(c *trees.BoundCheck, v journal.Value) string { return valueWords(c, v) }

// StateWords says the state a check is made in: which demand, and what is off.
func (j *Job) StateWords(c *trees.BoundCheck) string {
	w := strings.TrimSuffix(strings.TrimPrefix(j.stateWords(c), "State: "), ".")
	return strings.ReplaceAll(w, ", and still shown after the reading", "")
}
