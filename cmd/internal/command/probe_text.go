package command

import (
	"fmt"
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// lines writes a reading for people.
func (p *probed) lines(s *stood, c *trees.BoundCheck) []string {
	out := []string{s.state()}
	if c.Look != "" {
		return append(out, c.Look, "  "+p.Answer+p.healthy(0, p.Answer, "; on a healthy plant: "))
	}
	for i, v := range p.Read {
		out = append(out, s.where(c, c.Probes[i], v.Mode)+":")
		if p.Live {
			out = append(out, fmt.Sprintf("  nothing to read: %s stand here%s", written(p.Stands, "V"), p.healthy(i, "nothing, being live", aHealthyOne)))
			continue
		}
		out = append(out, "  reads "+v.Shown+p.healthy(i, v.Shown, aHealthyOne))
		if v.Value != nil && *v.Value != 0 && strings.HasPrefix(v.Shown, "0 ") {
			out = append(out, fmt.Sprintf("  too little for this meter to show: %s", c.Quantity.Approx(*v.Value)))
		}
		if v.Amps > 0 {
			out = append(out, "  the meter draws "+drawn(v.Amps))
		}
		if v.Open != nil && v.Behind != nil {
			out = append(out, fmt.Sprintf("  without the meter %s, with %s behind it", written(*v.Open, "V"), written(*v.Behind, "Ω")))
		}
		for _, w := range v.Why {
			out = append(out, "  "+w)
		}
	}
	return append(out, p.remarks(s.model.Plant, c.Quantity)...)
}

// where says where the probes are, or what the clamp goes round.
func (s *stood) where(c *trees.BoundCheck, p trees.BoundProbe, mode string) string {
	switch {
	case c.Quantity == measurements.Amps || c.Quantity == measurements.Leakage:
		return fmt.Sprintf("%s round %s", mode, s.model.Clamps(c.Quantity, p))
	case onePlace(c.Quantity):
		return fmt.Sprintf("%s at %s", mode, p.From.Name())
	}
	return fmt.Sprintf("%s to %s, %s", p.From.Name(), toName(p), mode)
}

// remarks say what the meter does to the plant, and the plant to the meter.
func (p *probed) remarks(of *trees.Plant, q measurements.Quantity) (out []string) {
	switch {
	case p.Live:
		return []string{fmt.Sprintf("the part is live: no reading of %s is taken on it, and the meter could be hurt; isolate it and prove it dead first", q)}
	case p.Moving:
		out = append(out, "the plant is unsteady: the reading moves, and the highest is given")
	}
	if q.Unit() != "V" {
		return out
	}
	for _, t := range p.Tripped {
		out = append(out, "the meter trips "+tripWords(of, t)+"; the reading is what is left after that")
	}
	var moved []string
	for _, m := range p.Moved {
		if !strings.HasSuffix(m, " tripped") {
			moved = append(moved, variableWords(of, m))
		}
	}
	if p.CaseAt > 0 {
		out = append(out, fmt.Sprintf("the meter lifts a metal case to %s: whoever touches it feels it", written(p.CaseAt, "V")))
	}
	switch {
	case len(moved) > 0:
		out = append(out, "the meter changes the plant: "+strings.Join(moved, ", "))
	case len(p.Tripped) == 0:
		out = append(out, "the meter moves nothing")
	}
	return out
}

// tripWords names a protection that acted, by the supply it belongs to.
func tripWords(of *trees.Plant, name string) string {
	if group, residual := strings.CutPrefix(name, "residual current device "); residual {
		var supplies []string
		for _, s := range of.Supplies {
			if s.RCD == group {
				supplies = append(supplies, s.Words)
			}
		}
		return "the residual current device of " + strings.Join(supplies, " and ")
	}
	if s := of.Supply(strings.TrimPrefix(name, "breaker of ")); s != nil {
		return "the breaker of " + s.Words
	}
	return name
}

// variableWords names a variable of the model, "diverter.at-heating" or "device
// unit-isolator on", by what it belongs to.
func variableWords(of *trees.Plant, name string) string {
	for _, kind := range []string{"device ", "box ", "call "} {
		if rest, ok := strings.CutPrefix(name, kind); ok {
			id, what, _ := strings.Cut(rest, " ")
			return strings.TrimSpace(of.Words(id) + " " + what)
		}
	}
	if id, what, ok := strings.Cut(name, "."); ok {
		return of.Words(id) + ": " + strings.ReplaceAll(what, "-", " ")
	}
	return name
}

// healthy says what a healthy plant gives where that is something else.
func (p *probed) healthy(i int, here, says string) string {
	if i >= len(p.Healthy) || p.Healthy[i] == here {
		return ""
	}
	return says + p.Healthy[i]
}

const aHealthyOne = "; a healthy one "

// drawn writes what a meter takes, in A, with a prefix that keeps it readable.
func drawn(amps float64) string {
	for _, p := range []struct {
		least float64
		unit  string
		one   float64
	}{{1, "A", 1}, {1e-5, "mA", 1e-3}, {1e-8, "µA", 1e-6}} {
		if amps >= p.least {
			return written(amps/p.one, p.unit)
		}
	}
	return written(amps/1e-9, "nA")
}
