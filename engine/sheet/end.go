package sheet

import (
	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
)

// closed files how the job ended, and what is said to those it is left with.
func (b *builder) closed(e journal.Event, body *journal.Closed) {
	s := b.sheet
	s.State = body.As
	s.End = &End{Mark: mark(e), As: body.As, Words: body.Words, To: body.To}
	if r := b.job.Referral(); r != nil {
		s.End.Leave = r.Leave
		s.End.Customer = with(s.End.Customer, flat(r.Say))
	}
	f, ok := b.job.Finding()
	if !ok {
		return
	}
	s.End.Customer = with(s.End.Customer, flat(f.Customer))
	if body.As != journal.Proven {
		s.End.Overnight = with(s.End.Overnight, flat(f.Night))
	}
}

// left says what stands otherwise than it was found.
func (b *builder) left() {
	p, w := b.job.Plant(), b.job.World()
	if p == nil || w == nil {
		return
	}
	l := &b.sheet.Left
	put := func(to *[]string, s safety.State, words string) {
		switch s {
		case safety.Set:
			*to = append(*to, words)
		case safety.Unsure:
			*to, l.Unseen = append(*to, words), with(l.Unseen, words)
		}
	}
	for _, d := range p.Devices {
		put(&l.Off, w.Devices[d.ID].Off, d.Words)
		put(&l.Locked, w.Devices[d.ID].Locked, d.Words)
	}
	for _, e := range p.Enclosures {
		put(&l.Open, w.Enclosures[e.ID].Open, e.Words)
	}
	for _, g := range p.Plugs {
		put(&l.Unplugged, w.Plugs[g.ID], g.Words)
	}
	for _, c := range p.Calls {
		if a := w.Calls[c.ID].Asked; a == safety.On || a == safety.Lapsed {
			l.Called = append(l.Called, c.Words)
		}
	}
	l.Exposed = b.job.Exposed()
}

// unfinished lists what is left to do or to find out.
func (b *builder) unfinished() {
	s := b.sheet
	if s.State == "open" && len(s.Hands) > 0 {
		s.Open = append(s.Open, "the job is still open")
	}
	if n := len(s.Findings); n > 0 && s.Findings[n-1].Repair == nil {
		s.Open = append(s.Open, "not repaired: "+s.Findings[n-1].words())
	}
	for _, r := range b.job.Retests() {
		if r.State != "passed" {
			s.Open = append(s.Open, "retest "+r.State+": "+named(r.Check))
		}
	}
	for _, l := range s.LeftOut {
		if l.TakenBack == 0 {
			s.Open = append(s.Open, joined(", ", "not checked: "+l.Words, l.Why))
		}
	}
	if s.State != journal.Proven {
		if f, ok := b.job.Finding(); !ok || len(f.Causes) == 0 {
			b.possible()
		}
	}
	for _, e := range s.Left.Exposed {
		s.Open = append(s.Open, "left "+e)
	}
}

// possible lists the causes that nothing has ruled out.
func (b *builder) possible() {
	for _, c := range b.job.Reachable() {
		b.sheet.Open = append(b.sheet.Open, "still possible: "+c)
	}
}
