package safety

import (
	"fmt"

	"faultwalk/trees"
)

// mayOpen: a mains cover comes off only with every supply behind it off and
// locked, and only with what proves it dead there, because without that it does
// not go on again. Sealed casings, and enclosures that hold the start of a supply,
// never do.
func mayOpen(ctx Context, w *World, t Thing) *Refusal {
	e := ctx.Plant.Enclosure(t.Act.On)
	if r := closedForGood(ctx.Plant, e); r != nil {
		return r
	}
	if e.Mains {
		if r := canProve(ctx); r != nil {
			return r
		}
	}
	if r := w.wantsIsolated(e); r != nil {
		return r
	}
	return w.wantsDischarged(e)
}

// closedForGood refuses what is never opened here, by anybody.
func closedForGood(p *trees.Plant, e *trees.Enclosure) *Refusal {
	if e.Sealed {
		return &Refusal{Why: words(p, e.ID) + " is sealed and stays shut", Referral: sealedPower, Kind: Never}
	}
	for _, s := range p.Supplies {
		for _, start := range []string{s.Live, s.Neutral} {
			if pt := p.Point(start); pt != nil && pt.In == e.ID {
				return &Refusal{Why: fmt.Sprintf("%s is where %s comes in: it stays live and shut", words(p, e.ID), s.Words), Referral: noIsolation, Kind: Never}
			}
		}
	}
	for _, s := range p.Reaching(e.ID) {
		if len(p.Isolators(s, e.ID)) == 0 {
			return &Refusal{Why: fmt.Sprintf("nothing that can be locked keeps %s out of %s", p.Supply(s).Words, words(p, e.ID)), Referral: noIsolation, Kind: Never}
		}
	}
	return nil
}

// wantsIsolated names the first supply that is not off and locked.
func (w *World) wantsIsolated(e *trees.Enclosure) *Refusal {
	locked := w.Locked()
	for _, s := range w.plant.Reaching(e.ID) {
		if w.plant.DeadFrom(s, e.ID, locked) {
			continue
		}
		near := w.plant.Isolators(s, e.ID)
		if len(near) == 0 {
			return closedForGood(w.plant, e)
		}
		return first("%s reaches %s: switch off and lock %s first", w.plant.Supply(s).Words, words(w.plant, e.ID), near[0].Words)
	}
	return nil
}

// wantsProof refuses hands in a mains enclosure that is not proved dead.
func (w *World) wantsProof(enclosure string) *Refusal {
	if !mains(w.plant, enclosure) || w.Proved(enclosure) {
		return nil
	}
	return first("prove %s dead first; nothing is touched in there before", words(w.plant, enclosure))
}

// mayClose: a hand that puts a cover on goes where a hand may go.
func mayClose(_ Context, w *World, t Thing) *Refusal { return w.wantsProof(t.Act.On) }

// mayPlug: a plug behind a mains cover is parted and refitted with that
// enclosure proved; behind another cover, with it off.
func mayPlug(ctx Context, w *World, t Thing) *Refusal {
	box := ctx.Plant.Plug(t.Act.On).In
	if r := w.wantsProof(box); r != nil {
		return r
	}
	return w.wantsOpen(box)
}

// wantsOpen refuses what lies behind a cover that is not off for certain.
func (w *World) wantsOpen(enclosure string) *Refusal {
	if enclosure == "" || w.Enclosures[enclosure].Open == Set {
		return nil
	}
	return first("take the cover off %s first", words(w.plant, enclosure))
}

// mayProve judges a proof, to begin with or with its values: instruments,
// covers off where the form's points are, everything isolated, no line missing.
// A voltage found is no reason to refuse the form: it has to be recorded.
func mayProve(ctx Context, w *World, t Thing) *Refusal {
	if r := canProve(ctx); r != nil {
		return r
	}
	form := w.Form(t.Act.On)
	if form == nil {
		return &Refusal{Why: words(ctx.Plant, t.Act.On) + " has no neutral and earth to prove to", Referral: noIsolation, Kind: Never}
	}
	for _, box := range touches(t.Act.On, form) {
		if r := w.wantsOpen(box); r != nil {
			return r
		}
		if r := w.wantsIsolated(ctx.Plant.Enclosure(box)); r != nil {
			return r
		}
		if r := w.wantsDischarged(ctx.Plant.Enclosure(box)); r != nil {
			return r
		}
	}
	if t.Form == nil || w.repeats(t.Act.On, t.Form) {
		return nil
	}
	return judged(Judge(form, t.Form))
}

// judged turns a form that is not complete into words.
func judged(v Verdict) *Refusal {
	switch {
	case v.Complete || v.Line != "":
		return nil
	case v.Missing == testerBefore || v.Missing == testerAfter:
		return &Refusal{Why: "the tester was not proved, so nothing it said counts: " + v.Missing, Referral: testerFailed, Kind: Order}
	}
	return first("the form is not complete: %s is missing", v.Missing)
}

// touches lists the enclosures a form's probes go into, its own first.
func touches(enclosure string, form []FormField) []string {
	boxes := []string{enclosure}
	for _, f := range form {
		for _, pt := range []*trees.Point{f.From, f.To} {
			if pt != nil && pt.In != "" && !contains(boxes, pt.In) {
				boxes = append(boxes, pt.In)
			}
		}
	}
	return boxes
}
