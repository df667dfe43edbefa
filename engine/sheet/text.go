package sheet

import (
	"strconv"
	"strings"
)

// Text sets a sheet in plain lines of at most width columns (at least 20), for
// a terminal or a file. Nothing in it moves a cursor or colours a screen.
func Text(s Sheet, width int) string {
	p := &page{width: max(width, narrowest)}
	p.line("", joined(" ", "JOB SHEET", s.Job))
	p.line("", s.headline())
	if s.Damage != "" {
		p.line("", "Damaged: "+s.Damage+". What follows is what could be read before that.")
	}
	p.line("", "All times are UTC. Numbers behind # are those of the journal.")
	for _, section := range []func(*page, Sheet){textEnd, textFindings, textCompared, textOpen, textPeople, textPlant,
		textCourse, textActs, textCautions, textRemarks, textDoubts, textRules} {
		section(p, s)
	}
	return p.b.String()
}

// headline says how the job stands.
func (s Sheet) headline() string {
	words := ""
	if s.End != nil {
		words = s.End.Words
	}
	return stop(upper(joined(": ", s.State, words)))
}

func textEnd(p *page, s Sheet) {
	p.heading("How it ended")
	e := s.End
	if e == nil {
		p.line("", "It has not ended.")
	} else {
		p.labelled("Closed", s.instantBy(e.Mark))
		p.labelled("Passed on to", e.To)
		p.labelled("Leave it", e.Leave)
		p.labelled("The customer is told", e.Customer...)
		p.labelled("Overnight", e.Overnight...)
	}
	p.labelled("The plant", s.leftWords()...)
}

func (s Sheet) instantBy(m Mark) string { return joined(", ", instant(m.At), m.By) }

// leftWords says how the plant stands.
func (s Sheet) leftWords() []string {
	var out []string
	list := func(label string, words []string) {
		if len(words) > 0 {
			out = append(out, label+": "+strings.Join(words, ", "))
		}
	}
	l := s.Left
	list("off", l.Off)
	list("locked", l.Locked)
	list("cover off", l.Open)
	list("unplugged", l.Unplugged)
	list("still called", l.Called)
	list("not safe", l.Exposed)
	list("not seen again since the job was taken up or handed over", l.Unseen)
	if len(out) == 0 && s.Plant != nil {
		return []string{"nothing is left off, locked, open, unplugged or called by us"}
	}
	return out
}

func textFindings(p *page, s Sheet) {
	for i, f := range s.Findings {
		p.heading(numbered("Likely cause (not certain)", i, len(s.Findings)))
		p.line("", stop(upper(f.words())))
		p.labelled("Deciding reading", f.Deciding)
		p.labelled("Second reading", f.Second)
		p.labelled("Against it", f.Against)
		p.labelled("Also possible", f.Also...)
		p.labelled("Behind it", f.Behind)
		for _, r := range f.RuledOut {
			p.labelled("Set aside, if only one thing is wrong", r)
		}
		p.labelled("Figures", f.Source)
		textRepair(p, s, f.Repair)
	}
	p.b.WriteString("\n")
	p.line("", s.LikelyOnly)
}

func (f Finding) words() string {
	var out []string
	for _, c := range f.Causes {
		out = append(out, c.Words)
	}
	return strings.Join(out, ", or ")
}

func textRepair(p *page, s Sheet, r *Repair) {
	if r == nil {
		p.labelled("Repaired", "no")
		return
	}
	p.labelled("Repaired", s.instantBy(r.Mark)+": "+r.Cause.Words)
	p.labelled("Remedy given, and said to be done", flat(r.Did))
	p.labelled("Parts", r.Parts...)
	for _, t := range r.Retests {
		p.labelled("Retest "+t.State, t.Words)
	}
}

func numbered(words string, i, of int) string {
	if of < 2 {
		return words
	}
	return words + " " + strconv.Itoa(i+1)
}

func textCompared(p *page, s Sheet) {
	if len(s.Compared) == 0 {
		return
	}
	p.heading("Before and after the repair")
	for _, c := range s.Compared {
		p.hang("", c.Words)
		p.hang("  ", "before: "+c.Before.words())
		p.hang("  ", "after:  "+c.After.words())
	}
}

func (g *Got) words() string {
	if g == nil {
		return "not read"
	}
	return joined(": ", g.Reads, g.Verdict)
}

func textOpen(p *page, s Sheet) {
	if len(s.Open) == 0 {
		return
	}
	p.heading("Left open")
	for _, o := range s.Open {
		p.line("- ", o)
	}
}
