package sheet

import (
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// repaired files the finding that was acted on, as it stands now, and the repair.
func (b *builder) repaired(e journal.Event, body *journal.Repaired) {
	b.retests()
	f, _ := b.job.Finding()
	out := b.finding(f)
	out.Event = e.N
	out.Repair = &Repair{Mark: mark(e), Cause: b.cause(body.Cause), Did: body.Did, Parts: body.Parts}
	if len(out.Causes) == 0 {
		out.Causes = []Named{out.Repair.Cause}
	}
	b.sheet.Findings = append(b.sheet.Findings, out)
}

// finding puts a conclusion into the sheet's shape.
func (b *builder) finding(f walk.Finding) Finding {
	out := Finding{Epoch: b.job.Epoch(), Deciding: strings.TrimPrefix(f.Deciding, "Because "), Second: f.Second, Against: f.Against, RuledOut: f.RuledOut,
		Also: f.Also, Behind: f.Behind, Source: f.Source}
	for _, id := range f.Causes {
		out.Causes = append(out.Causes, b.cause(id))
	}
	return out
}

func (b *builder) cause(id string) Named {
	if c := b.job.Cause(id); c != nil {
		return Named{id, c.Words}
	}
	return Named{id, id}
}

// retests files how the retests of the last repair stand; nothing where the
// tree is walked again already.
func (b *builder) retests() {
	n := len(b.sheet.Findings) - 1
	now := b.job.Retests()
	if n < 0 || b.sheet.Findings[n].Repair == nil || len(now) == 0 {
		return
	}
	r := b.sheet.Findings[n].Repair
	r.Retests = nil
	for _, t := range now {
		r.Retests = append(r.Retests, Retest{t.Check.ID, walk.CheckWords(t.Check), t.Purpose, t.State})
	}
}

// concluded files the finding the job ends on where nothing was repaired, and
// the last retests.
func (b *builder) concluded() {
	b.retests()
	if f, ok := b.job.Finding(); ok && len(b.job.Retests()) == 0 {
		b.sheet.Findings = append(b.sheet.Findings, b.finding(f))
	}
}

// compare sets each check read after a repair beside what it gave before.
func (b *builder) compare() {
	for i, f := range b.sheet.Findings {
		if f.Repair != nil {
			b.comparePair(b.sheet.Findings[i].Epoch + 1)
		}
	}
}

func (b *builder) comparePair(epoch int) {
	seen := map[string]bool{}
	for _, r := range b.sheet.Readings {
		if r.Epoch != epoch || r.TakenBack != 0 || seen[r.Check] {
			continue
		}
		seen[r.Check] = true
		before, after := b.latest(r.Check, epoch-1, false), b.latest(r.Check, epoch, true)
		if before == nil && after.Purpose != journal.ForRetest && after.Purpose != journal.ForCleared {
			continue
		}
		p := Pair{Epoch: epoch, Check: r.Check, Words: r.Words, After: *got(after), Before: got(before)}
		b.sheet.Compared = append(b.sheet.Compared, p)
	}
}

// latest finds the last reading of a check in an epoch, or up to it.
func (b *builder) latest(check string, epoch int, only bool) *Reading {
	var out *Reading
	for i, r := range b.sheet.Readings {
		if r.Check == check && r.TakenBack == 0 && r.Epoch <= epoch && (!only || r.Epoch == epoch) {
			out = &b.sheet.Readings[i]
		}
	}
	return out
}

func got(r *Reading) *Got {
	if r == nil {
		return nil
	}
	return &Got{r.Event, r.reads(), r.judged()}
}
