package sheet

import (
	"fmt"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
)

func textCourse(p *page, s Sheet) {
	course := s.course()
	if len(course) == 0 {
		return
	}
	p.heading("Readings, in order")
	for _, n := range course {
		switch {
		case n.Epoch != "":
			p.line("", n.Epoch+":")
		case n.Reading != nil:
			textReading(p, s, *n.Reading)
		case n.LeftOut != nil:
			p.hang("", s.tag(n.LeftOut.Mark)+gone(n.LeftOut.TakenBack, "")+joined(": ", "left out", joined(", ", n.LeftOut.Words, n.LeftOut.Why)))
		case n.Turn != nil:
			p.hang("", s.tag(n.Turn.Mark)+gone(n.Turn.TakenBack, "")+joined(": ", "out of order, to", joined(", ", n.Turn.Words, n.Turn.Why)))
		}
	}
}

// tag is the number and time that stand before an entry.
func (s Sheet) tag(m Mark) string { return fmt.Sprintf("#%d %s ", m.Event, s.clock(m.At)) }

// gone says before an entry that it was taken back.
func gone(by int, why string) string {
	if by == 0 {
		return ""
	}
	return "TAKEN BACK by " + joined(", ", fmt.Sprintf("#%d", by), why) + ": "
}

func textReading(p *page, s Sheet, r Reading) {
	p.hang("", s.tag(r.Mark)+gone(r.TakenBack, r.TakenBackWhy)+joined(": ", purposeWords(r.Purpose), r.Words))
	p.hang("  ", labelled("= ", r.Answered))
	for _, v := range r.Values {
		p.hang("  ", "= "+joined(", ", joined(" ", v.Name, v.Reads), v.typedWords(), v.Mode, v.Meter))
		p.hang("    ", labelled("at ", r.between(v)))
		p.hang("    ", labelled("expected ", v.Expected))
	}
	p.hang("  ", labelled("state: ", r.State))
	p.hang("  ", labelled("verdict: ", r.judged()))
	p.hang("  ", r.Doubt)
}

// labelled puts a label before words; nothing where there are none.
func labelled(label, words string) string {
	if words == "" {
		return ""
	}
	return label + words
}

func textActs(p *page, s Sheet) {
	if len(s.Acts) == 0 {
		return
	}
	p.heading("Isolation, proof and acts, in order")
	for _, a := range s.Acts {
		p.hang("", s.tag(a.Mark)+a.said())
		for _, l := range a.Proof {
			p.hang("  ", l.Words+l.loaded()+": "+l.reads())
		}
	}
}

// said is an act with its outcome, where that is not simply done.
func (a Act) said() string {
	w := a.Words
	switch {
	case a.Do == journal.ActProve && a.Outcome == journal.Done:
		w = "proved dead: " + strings.TrimPrefix(w, "proof of dead: ")
	case a.Outcome == journal.Found:
		w = "VOLTAGE FOUND, " + w
	case a.Outcome != journal.Done:
		w = "COULD NOT BE DONE: " + w
	}
	return joined(", ", w, a.Why)
}

// loaded marks the lines of a proof that were read under load.
func (l Line) loaded() string {
	if l.Mode == string(measurements.TwoPoleLoaded) {
		return ", under load"
	}
	return ""
}

// reads is what stands in a line of a proof.
func (l Line) reads() string {
	if l.Volts == nil || strings.HasSuffix(l.Typed, "V") {
		return l.Typed
	}
	return l.Typed + " V"
}

func textCautions(p *page, s Sheet) {
	if len(s.Cautions) == 0 {
		return
	}
	p.heading("Cautions shown")
	for _, c := range s.Cautions {
		p.line("- ", joined(" ", c.title()+":", flat(c.Words)))
	}
}

func (c Caution) title() string { return strings.ReplaceAll(c.ID, "-", " ") }

func textRemarks(p *page, s Sheet) {
	if len(s.Remarks) == 0 {
		return
	}
	p.heading("Remarks")
	for _, r := range s.Remarks {
		p.hang("", s.tag(r.Mark)+joined(": ", r.Kind, flat(r.Words)))
	}
}

func textDoubts(p *page, s Sheet) {
	if len(s.Doubts) == 0 {
		return
	}
	p.heading("Not as it was recorded")
	for _, d := range s.Doubts {
		p.line("- ", d)
	}
}

func textRules(p *page, s Sheet) {
	r := s.Rules
	if r.Jurisdiction.ID == "" {
		return
	}
	p.heading("Rules where this job was: " + joined("", r.Jurisdiction.Words, unknownRules(r)))
	p.line("", flat(r.Law))
	p.labelled("Standards", r.Standards...)
	p.labelled("Trees", short(s.Trees))
	p.labelled("Programs", s.Builds...)
}

// unknownRules says that a jurisdiction has no file here.
func unknownRules(r Rules) string {
	if r.Jurisdiction.Words != "" {
		return ""
	}
	return r.Jurisdiction.ID + ", of which nothing is known here: licensed practice of that country applies"
}

func short(hash string) string { return hash[:min(len(hash), 12)] }
