package walk

import (
	"strings"

	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// pending is the reading to take now: the probe not read yet, or read and to
// be read again; nil for a look.
func (j *Job) pending(a *aim) *trees.BoundProbe {
	r := j.mind.now[a.check.ID]
	for i, p := range a.check.Probes {
		if r == nil || len(r.values) == len(a.check.Probes) {
			return &a.check.Probes[i]
		}
		if _, read := r.values[p.As]; !read {
			return &a.check.Probes[i]
		}
	}
	return nil
}

func askReading(j *Job) *Ask {
	a := j.aim()
	if a == nil || a.check == nil {
		return nil
	}
	if len(a.check.Probes) == 0 {
		return j.lookAsk(a)
	}
	return j.probeAsk(a, j.pending(a))
}

func (j *Job) lookAsk(a *aim) *Ask {
	c := a.check
	ask := &Ask{ID: "look", Kind: Choose, Check: c.ID, Title: c.Look, Cautions: j.checkCautions(a), Minutes: c.Check.Minutes}
	if j.mind.hands.Phone && c.Say != "" {
		ask.Body = append(ask.Body, "Say: “"+strings.TrimSpace(c.Say)+"”")
	}
	ask.Body = append(ask.Body, j.prose(c)...)
	for _, x := range c.Answers {
		ask.Choices = append(ask.Choices, Choice{ID: x.ID, Text: x.Say})
	}
	return ask
}

// prose is where and how; on the phone to somebody who may only look it stays
// with the words to say.
func (j *Job) prose(c *trees.BoundCheck) []string {
	var out []string
	if j.plainWords() && c.Say != "" {
		return out
	}
	if c.Where != "" {
		out = append(out, "Where: "+c.Where)
	}
	if c.How != "" {
		out = append(out, c.How)
	}
	return out
}

// plainWords says whether the hands are only ever talked to in plain words.
func (j *Job) plainWords() bool {
	k := j.mind.hands.Kind
	return j.mind.hands.Phone && (k == "householder" || k == "installer")
}

func (j *Job) checkCautions(a *aim) []Caution {
	return j.cautions(safety.Cautions(j.context(), a.thing(j))...)
}

func (j *Job) probeAsk(a *aim, p *trees.BoundProbe) *Ask {
	c := a.check
	o, _ := j.using(c, *p)
	r := &ReadingAsk{As: p.As, Quantity: string(c.Quantity), From: p.From.Name(), Mode: o.Mode, Meter: o.Meter.Name}
	if p.To != nil {
		r.To = p.To.Name()
	}
	r.Expected = j.expectedWords(c, *p)
	j.drawRanges(a, p, r)
	ask := &Ask{ID: "reading", Kind: Measure, Check: c.ID, Title: probeTitle(r), Cautions: j.checkCautions(a), Reading: r, Minutes: c.Check.Minutes}
	if j.mind.hands.Phone {
		ask.Body = append(ask.Body, "Phone down, measure, step back, then report.")
		ask.Body = append(ask.Body, j.sayWords(c.Say)...)
	}
	ask.Body = append(ask.Body, j.prose(c)...)
	ask.Body = append(ask.Body, "Meter: "+meterWords(o))
	if s := j.stateWords(c); s != "" {
		ask.Body = append(ask.Body, s)
	}
	if r.Expected != "" {
		ask.Body = append(ask.Body, "Expected when all is well: "+r.Expected)
	}
	return ask
}

func probeTitle(r *ReadingAsk) string {
	what := quantityWords(measurements.Quantity(r.Quantity))
	if r.To == "" {
		return "Read " + what + " at " + r.From
	}
	return "Read " + what + ": " + r.From + " to " + r.To
}

// quantityWords says a quantity as people do.
func quantityWords(q measurements.Quantity) string {
	switch q {
	case measurements.ACVolts:
		return "volts ac"
	case measurements.DCVolts:
		return "volts dc"
	case measurements.Insulation:
		return "insulation resistance"
	case measurements.Leakage:
		return "the leakage current"
	case measurements.Celsius:
		return "the temperature"
	}
	return string(q)
}

// stateWords says the state the plant must be in, with which demand, and what is off.
func (j *Job) stateWords(c *trees.BoundCheck) string {
	var parts []string
	for _, call := range j.mind.plant.Calls {
		if on, ok := c.Need.Calls[call.ID]; ok && on {
			parts = append(parts, call.Words+" called, and still shown after the reading")
		} else if ok {
			parts = append(parts, call.Words+" not called")
		}
	}
	for _, id := range c.Need.Unplugged {
		parts = append(parts, j.mind.plant.Words(id)+" unplugged")
	}
	if c.Need.Power == trees.Live && len(c.Need.Unplugged) == 0 {
		parts = append(parts, "the load left on")
	}
	if len(parts) == 0 {
		return ""
	}
	return "State: " + strings.Join(parts, "; ") + "."
}
