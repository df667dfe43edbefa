package sheet

import (
	"slices"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// Of makes the sheet of a job's events, in the words of the library: its trees
// should be the set the job was begun on. Events that were read before a damage
// make a sheet too; without any it is empty. Nothing that was recorded is
// dropped: what was taken back stays, marked.
func Of(lib walk.Library, events []journal.Event) Sheet {
	b := &builder{lib: lib, sheet: &Sheet{Format: Format, State: "open", LikelyOnly: LikelyOnly}, taken: map[int]*journal.Event{}}
	for i, e := range events {
		if r, ok := e.Body.(*journal.Retracted); ok {
			b.taken[r.Event] = &events[i]
		}
	}
	b.job = walk.Replay(lib, events, b.event)
	b.finish(events)
	return *b.sheet
}

// builder puts a sheet together while the job is gone through again.
type builder struct {
	lib   walk.Library
	sheet *Sheet
	job   *walk.Job              // as it stood before the event in hand; at last, at the end
	taken map[int]*journal.Event // events taken back → what took them back
	facts map[string]string      // asks of the plant's facts → answers
}

// event files one event.
func (b *builder) event(before *walk.Job, e journal.Event) {
	b.job = before
	b.head(e)
	switch body := e.Body.(type) {
	case *journal.Opened:
		b.opened(body)
	case *journal.Answered:
		b.answered(e, body)
	case *journal.Handed:
		b.handed(e, body)
	case *journal.Acted:
		b.acted(e, body)
	case *journal.Read:
		b.read(e, body)
	case *journal.Skipped:
		b.skipped(e, body)
	case *journal.Turned:
		b.turned(e, body)
	case *journal.Repaired:
		b.repaired(e, body)
	case *journal.Closed:
		b.closed(e, body)
	default:
		b.remark(e)
	}
}

// head takes what every event tells: when, by whom.
func (b *builder) head(e journal.Event) {
	s := b.sheet
	if s.Opened.IsZero() {
		s.Opened = e.At.UTC()
	}
	s.Last = e.At.UTC()
	s.By = with(s.By, e.By)
}

func (b *builder) opened(body *journal.Opened) {
	s := b.sheet
	s.Job, s.Trees, s.Safety, s.Builds = body.Job, body.Trees, body.Safety, with(s.Builds, body.Build)
	s.Rules.Jurisdiction.ID = body.Jurisdiction
	if j := b.lib.Set.Jurisdictions[body.Jurisdiction]; j != nil {
		s.Rules = Rules{Named{j.ID, j.Name}, j.Law, j.Standards}
	}
}

// remark files what is only said: notes, stops, resumptions, answers taken back.
func (b *builder) remark(e journal.Event) {
	switch body := e.Body.(type) {
	case *journal.Noted:
		b.say(e, "note", body.Text)
	case *journal.Stopped:
		b.say(e, "stopped", body.Why)
	case *journal.Resumed:
		b.sheet.Builds = with(b.sheet.Builds, body.Build)
		b.say(e, "resumed", "every proof and every wait before it is void")
	case *journal.Retracted:
		b.takenBack(e, body)
	}
}

func (b *builder) say(e journal.Event, kind, words string) {
	b.sheet.Remarks = append(b.sheet.Remarks, Remark{mark(e), kind, words})
}

// finish adds what only the whole job tells.
func (b *builder) finish(events []journal.Event) {
	b.intake(events)
	b.plant()
	b.concluded()
	b.compare()
	b.left()
	b.unfinished()
	b.sheet.Doubts = append(b.sheet.Doubts, b.job.Mismatches()...)
	if s := b.sheet; s.Safety != "" && s.Safety != b.lib.Set.SafetyHash() {
		s.Doubts = append(s.Doubts, "the cautions, gates and limits of mains have changed since this job began; their words here are those of now")
	}
}

func mark(e journal.Event) Mark { return Mark{e.N, e.At.UTC(), e.By} }

// with adds a word to a list once.
func with(list []string, word string) []string {
	if word == "" || slices.Contains(list, word) {
		return list
	}
	return append(list, word)
}

// back is the event that took another back; 0 if none did.
func (b *builder) back(n int) int {
	if e := b.taken[n]; e != nil {
		return e.N
	}
	return 0
}
