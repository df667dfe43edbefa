package sheet

import (
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// answered files what an answer decides; those of the intake are filed at the
// end, when it is known which were taken back.
func (b *builder) answered(e journal.Event, body *journal.Answered) {
	b.cautions(e.N, body.Cautions)
	if b.back(e.N) == 0 && body.Ask == "retest failed" {
		b.retests()
	}
}

// intake files the answers that stand, in the words they were offered in.
func (b *builder) intake(events []journal.Event) {
	in := &b.sheet.Intake
	b.facts = map[string]string{}
	for _, e := range events {
		a, ok := e.Body.(*journal.Answered)
		if !ok || b.back(e.N) != 0 {
			continue
		}
		words := b.job.AnswerWords(a.Ask, a.Choice)
		switch a.Ask {
		case "danger":
			in.Danger = words
		case "operator":
			in.Operator, in.ByPhone = words, a.Choice == "phone"
		case "told":
			in.Told = words
		case "changed":
			in.Changed = words
		case "symptom":
			b.sign(a.Choice)
		}
		if fact, is := strings.CutPrefix(a.Ask, "fact "); is {
			b.facts[fact] = a.Choice
		}
	}
}

// sign adds a symptom the job was about.
func (b *builder) sign(id string) {
	words := id
	if s := b.lib.Set.Symptoms[id]; s != nil {
		words = s.Sign
	}
	for _, s := range b.sheet.Signs {
		if s.ID == id {
			return
		}
	}
	b.sheet.Signs = append(b.sheet.Signs, Named{id, words})
}

// handed files new hands with what they hold.
func (b *builder) handed(e journal.Event, body *journal.Handed) {
	h := body.Hands
	out := Hands{Mark: mark(e), Kind: h.Kind, Words: b.job.AnswerWords("hands", h.Kind), Certificates: h.Certificates,
		Supervisor: h.Supervisor, ByPhone: h.Phone, ProvingUnit: h.ProvingUnit, Calibrated: h.Calibration}
	for _, id := range h.Kit {
		i := Instrument{ID: id, Name: id}
		if in, ok := b.lib.Kit.Instrument(id); ok {
			i.Name, i.Calibrated = in.Name, in.Calibrated
		}
		out.Instruments = append(out.Instruments, i)
	}
	b.sheet.Hands = append(b.sheet.Hands, out)
}

// plant files the plant that stands at the end, its facts and its supplies.
func (b *builder) plant() {
	p := b.job.Plant()
	if p == nil {
		return
	}
	out := &Plant{ID: p.ID, Words: p.Is}
	for _, f := range p.Facts {
		if said := optionWords(f, b.facts[f.ID]); said != "" {
			out.Facts = append(out.Facts, Fact{f.Ask, said})
		}
	}
	for _, s := range p.Supplies {
		out.Supplies = append(out.Supplies, supply(p, s))
	}
	b.sheet.Plant = out
}

func optionWords(f trees.Fact, id string) string {
	for _, o := range f.Options {
		if o.ID == id {
			return o.Say
		}
	}
	return id
}

func supply(p *trees.Plant, s *trees.Supply) Supply {
	out := Supply{ID: s.ID, Words: s.Words, Breaker: s.Breaker, RCD: s.RCD}
	for _, d := range p.Devices {
		if d.Supply == s.ID {
			out.Devices = append(out.Devices, Device{d.ID, d.Words, d.Where, d.Poles, d.Lockable})
		}
	}
	return out
}
