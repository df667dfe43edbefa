package walk

import (
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// AnswerWords says an answer of the intake as it was offered; the id itself
// where it is none of those.
func (j *Job) AnswerWords(ask, choice string) string {
	offered := map[string][]Choice{
		"danger": append([]Choice{{ID: "none", Text: "none of these"}}, dangers...), "operator": operators,
		"hands": handKinds, "certificates": certificates, "changed": changes, "told": askTold(j).Choices,
	}
	for _, c := range offered[ask] {
		if c.ID == choice {
			return c.Text
		}
	}
	return choice
}

// ActWords says an act in the words of this plant, as it was asked for. The
// plant must be chosen and have what the act is on; otherwise its ids are given.
func (j *Job) ActWords(a journal.Act) string {
	if !j.has(a) {
		return a.Do + " " + a.On
	}
	return j.actWords(a)
}

// has says whether the plant has what an act is on.
func (j *Job) has(a journal.Act) bool {
	p := j.mind.plant
	if p == nil {
		return false
	}
	switch a.Do {
	case journal.ActCall, journal.ActRelease:
		return p.Call(a.On) != nil
	case journal.ActSwitchOff, journal.ActLock, journal.ActUnlock, journal.ActSwitchOn:
		return p.Device(a.On) != nil
	case journal.ActOpen, journal.ActClose, journal.ActProve:
		return p.Enclosure(a.On) != nil
	case journal.ActUnplug, journal.ActRefit:
		return p.Plug(a.On) != nil
	}
	return a.Do == journal.ActWait
}

// FormWords says what the lines of a proof were, by their names: from where to
// where, and in which mode.
func (j *Job) FormWords(enclosure string) map[string]string {
	out := map[string]string{}
	if j.mind.plant == nil || j.mind.plant.Enclosure(enclosure) == nil {
		return out
	}
	for _, f := range safety.Form(j.mind.plant, enclosure) {
		out[f.Name] = lineWords(f)
	}
	return out
}

func lineWords(f safety.FormField) string {
	if f.Kind != safety.Volts || f.From == nil || f.To == nil {
		return f.Name
	}
	return f.From.Name() + " to " + f.To.Name() + ", " + f.Mode
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
func ProbeWords(p trees.BoundProbe) string { return pairWords(p) }

// ValueWords says what was read in the trade's writing: "231.4 V".
func ValueWords(c *trees.BoundCheck, v journal.Value) string { return valueWords(c, v) }

// StateWords says the state a check is made in: which demand, and what is off.
func (j *Job) StateWords(c *trees.BoundCheck) string {
	w := strings.TrimSuffix(strings.TrimPrefix(j.stateWords(c), "State: "), ".")
	return strings.ReplaceAll(w, ", and still shown after the reading", "")
}
