package walk

import (
	"fmt"
	"strings"

	"faultwalk/trees"
)

// deciding is the last reading that led to the place; nil at the start.
func (j *Job) deciding() *passed {
	for i := len(j.mind.trail) - 1; i >= 0; i-- {
		if j.mind.trail[i].read != nil {
			return &j.mind.trail[i]
		}
	}
	return nil
}

// amiss is the last reading on the way here that is not as it should be: what a
// repair has to put right. Where none was, it is the deciding one.
func (j *Job) amiss() *passed {
	for i := len(j.mind.trail) - 1; i >= 0; i-- {
		p := &j.mind.trail[i]
		if p.read == nil || p.read.check.Good.Value == "" {
			continue
		}
		if good, decided := j.healthy(p.read); decided && !good {
			return p
		}
	}
	return j.deciding()
}

func (j *Job) decidingWords() string {
	d := j.deciding()
	if d == nil {
		return ""
	}
	w := "Because " + checkName(d.read.check) + " gave: " + j.readWords(d.read)
	if d.branch >= 0 {
		w += ": " + d.step.Branches[d.branch].Meaning
	}
	return w + "."
}

// checkName says a check in words: its question, or where it was read.
func checkName(c *trees.BoundCheck) string {
	if c.Look != "" {
		return "“" + c.Look + "”"
	}
	p := c.Probes[0]
	if p.To != nil && len(c.Probes) == 1 {
		return p.From.Name() + " to " + p.To.Name()
	}
	return p.From.Name()
}

func causeWords(cs []*trees.BoundCause) string {
	var out []string
	for _, c := range cs {
		out = append(out, c.Words)
	}
	return strings.Join(out, ", or ")
}

// Finding is a conclusion with what supports it.
type Finding struct {
	Causes   []string
	Deciding string
	Second   string
	Against  string
	RuledOut []string
	Also     []string
	Behind   string
	Customer string
	Night    string
	Source   string
}

// finding puts the conclusion at the present place into words. One fault may
// stand in the tree under several ids; to a person it is the same by its words.
func (j *Job) finding() Finding {
	m := j.mind
	f := Finding{Deciding: j.decidingWords()}
	in := map[string]bool{}
	for _, c := range m.place.Causes {
		in[c.Words] = true
		f.Causes = append(f.Causes, c.ID)
		if c.Confirm != nil && c.Confirm.Check != nil && m.now[c.Confirm.Check.ID] != nil {
			r := m.now[c.Confirm.Check.ID]
			w := checkName(r.check) + ": " + j.readWords(r) + "; " + j.confirmWords(c, r)
			if j.contradicted(c) {
				f.Against = w
			} else {
				f.Second = w
			}
		}
	}
	c := m.place.Causes[0]
	f.Behind, f.Customer, f.Night, f.Source = c.Behind, c.Customer, c.Night, c.Cause.Source
	for _, c := range j.also(in) {
		f.Also, in[c.Words] = append(f.Also, c.Words), true
	}
	f.RuledOut = j.ruledOut(in)
	return f
}

// also lists the rivals, and what skipped steps left open unless a reading that
// looks for it went another way.
func (j *Job) also(in map[string]bool) []*trees.BoundCause {
	var out []*trees.BoundCause
	refuted := j.refuted()
	seen := map[string]bool{}
	add := func(c *trees.BoundCause) {
		if !in[c.Words] && !seen[c.Words] {
			seen[c.Words] = true
			out = append(out, c)
		}
	}
	for _, c := range j.mind.place.Causes {
		for _, r := range c.Rivals {
			add(r)
		}
	}
	for _, p := range j.mind.trail {
		if p.branch >= 0 || p.read != nil {
			continue
		}
		for _, br := range p.step.Branches {
			for _, c := range p.graph.Causes(br.To) {
				if !refuted[c.Words] {
					add(c)
				}
			}
		}
	}
	return out
}

// refuted are the causes that a step would have led to at once and its reading
// did not.
func (j *Job) refuted() map[string]bool {
	out := map[string]bool{}
	for _, p := range j.mind.trail {
		if p.read == nil || p.branch < 0 {
			continue
		}
		for _, br := range p.step.Branches {
			for _, c := range br.To.Causes {
				out[c.Words] = true
			}
		}
		for _, c := range p.to.Causes {
			delete(out, c.Words)
		}
	}
	return out
}

// ruledOut lists the causes that each reading took out of reach, with the reading.
func (j *Job) ruledOut(in map[string]bool) []string {
	m := j.mind
	left := map[string]bool{}
	for _, c := range m.place.Causes {
		for _, r := range c.Rivals {
			left[r.Words] = true
		}
	}
	var out []string
	seen := map[string]bool{}
	for _, p := range m.trail {
		if p.read == nil || p.branch < 0 {
			continue
		}
		after := map[string]bool{}
		for _, c := range p.graph.Causes(p.to) {
			after[c.Words] = true
		}
		var gone []string
		for _, br := range p.step.Branches {
			for _, c := range p.graph.Causes(br.To) {
				if !after[c.Words] && !in[c.Words] && !left[c.Words] && !seen[c.Words] {
					seen[c.Words] = true
					gone = append(gone, c.Words)
				}
			}
		}
		if len(gone) > 0 {
			out = append(out, few(gone, 3)+": by "+j.quoted(p.read)+" at "+checkName(p.read.check))
		}
	}
	return out
}

// few keeps a long list readable; the rest is counted.
func few(words []string, most int) string {
	if len(words) <= most {
		return strings.Join(words, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(words[:most], ", "), len(words)-most)
}
