package sheet

import (
	"fmt"
	"strings"
)

func textPeople(p *page, s Sheet) {
	p.heading("Job and people")
	p.labelled("Opened", instant(s.Opened))
	p.labelled("Last entry", instant(s.Last))
	p.labelled("Recorded by", s.By...)
	p.labelled("Danger", s.Intake.Danger)
	p.labelled("At the tool", s.Intake.Operator)
	for i, h := range s.Hands {
		p.hang("", joined("; ", numbered("Hands", i, len(s.Hands))+": "+h.Words+fromWhen(s, i, h), h.holds()))
		for _, in := range h.Instruments {
			p.line("- ", in.words())
		}
		if w := h.tester(); w != "" {
			p.line("- ", "tester: "+w)
		}
	}
	p.labelled("People there", s.Intake.Told)
	for _, g := range s.Signs {
		p.labelled("Sign", g.Words)
	}
	p.labelled("Changed lately", s.Intake.Changed)
}

func fromWhen(s Sheet, i int, h Hands) string {
	if i == 0 {
		return ""
	}
	return ", from " + s.clock(h.At)
}

func (h Hands) holds() string {
	words := ""
	if len(h.Certificates) > 0 {
		words = "certified for " + strings.Join(h.Certificates, " and ")
	}
	watched, phone := "", ""
	if h.Supervisor != "" {
		watched = "supervised by " + h.Supervisor
	}
	if h.ByPhone {
		phone = "by phone"
	}
	return joined("; ", words, watched, phone)
}

func (i Instrument) words() string {
	if i.Calibrated == "" {
		return i.Name
	}
	return i.Name + ", calibrated " + i.Calibrated
}

// tester says what is told of the proving unit and of calibration.
func (h Hands) tester() string {
	if h.Calibrated == "" {
		return ""
	}
	unit := "no proving unit"
	if h.ProvingUnit {
		unit = "proving unit there"
	}
	return unit + "; calibrated: " + h.Calibrated
}

func textPlant(p *page, s Sheet) {
	if s.Plant == nil {
		return
	}
	p.heading("Plant")
	p.hang("", s.Plant.ID+": "+flat(s.Plant.Words))
	for _, f := range s.Plant.Facts {
		p.hang("", f.Ask+" "+f.Answer)
	}
	for _, v := range s.Plant.Supplies {
		p.labelled("Supply", v.words())
		for _, d := range v.Devices {
			p.line("- ", d.words())
		}
	}
}

func (v Supply) words() string {
	return joined(", ", v.Words, v.Breaker, labelled("RCD ", v.RCD))
}

func (d Device) words() string {
	lock := "cannot be locked"
	if d.Lockable {
		lock = "lockable"
	}
	poles := ""
	if d.Poles > 0 {
		poles = fmt.Sprintf("%d-pole", d.Poles)
	}
	return joined(", ", joined(" ", d.Words, bracketed(d.Where)), poles, lock)
}

func bracketed(s string) string {
	if s == "" {
		return ""
	}
	return "(" + s + ")"
}
