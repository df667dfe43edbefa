package sheet

import (
	"strconv"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/engine/walk"
)

// acted files something done to the plant, with its form where it is a proof.
func (b *builder) acted(e journal.Event, body *journal.Acted) {
	b.cautions(e.N, body.Cautions)
	a := Act{Mark: mark(e), Do: body.Act.Do, On: body.Act.On, Words: b.actWords(body.Act), Minutes: body.Act.Minutes, Outcome: body.Outcome, Why: body.Why}
	form := map[string]safety.FormField{}
	if p := b.job.Plant(); p != nil && len(body.Form) > 0 {
		for _, f := range safety.Form(p, body.Act.On) {
			form[f.Name] = f
		}
	}
	for _, f := range body.Form {
		a.Proof = append(a.Proof, line(f, form))
	}
	b.sheet.Acts = append(b.sheet.Acts, a)
}

// actWords says an act as a record of it, never as an instruction.
func (b *builder) actWords(a journal.Act) string {
	on := a.On
	if p := b.job.Plant(); p != nil {
		on = p.Words(a.On)
	}
	switch a.Do {
	case journal.ActRelease:
		return on + " not called"
	case journal.ActCall:
		return on + " called"
	case journal.ActBack:
		return on + " as it was noted"
	case journal.ActWait:
		return "waited " + strconv.FormatFloat(a.Minutes, 'f', -1, 64) + " min"
	}
	return joined(": ", didWords(a.Do), on)
}

// didWords says what was done; the id itself for what this build does not know.
func didWords(do string) string {
	switch do {
	case journal.ActSwitchOff:
		return "switched off"
	case journal.ActLock:
		return "locked off"
	case journal.ActOpen:
		return "cover off"
	case journal.ActProve:
		return "proof of dead"
	case journal.ActUnplug:
		return "unplugged"
	case journal.ActRefit:
		return "refitted"
	case journal.ActClose:
		return "cover on"
	case journal.ActUnlock:
		return "lock taken off"
	case journal.ActSwitchOn:
		return "switched on"
	}
	return do
}

// line puts one line of a proof into words. A line this form does not have is
// volts unless it was answered yes or no.
func line(f journal.Field, form map[string]safety.FormField) Line {
	l := Line{Line: f.Name, Words: f.Name, Typed: f.Typed}
	asked, known := form[f.Name]
	if known && asked.Kind == safety.Yes {
		l.Words = walk.LineWords(asked)
	}
	if known && asked.From != nil && asked.To != nil {
		l.Words, l.Mode = asked.From.Name()+" to "+asked.To.Name(), asked.Mode
	}
	if asked.Kind == safety.Volts || !known && !yesNo(f.Typed) {
		volts := f.Value
		l.Volts = &volts
	}
	return l
}

func yesNo(typed string) bool {
	switch strings.ToLower(strings.TrimSpace(typed)) {
	case "yes", "y", "no", "n":
		return true
	}
	return false
}

// skipped files a check that was left out.
func (b *builder) skipped(e journal.Event, body *journal.Skipped) {
	words := body.Check
	if c := b.job.Check(body.Check); c != nil {
		words = walk.CheckWords(c)
	}
	b.sheet.LeftOut = append(b.sheet.LeftOut, LeftOut{mark(e), body.Check, words, body.Why, b.back(e.N)})
}

// turned files a way taken out of the tree's order.
func (b *builder) turned(e journal.Event, body *journal.Turned) {
	words := body.To
	if s := b.lib.Set.Symptoms[body.To]; s != nil {
		words = s.Sign
		if b.back(e.N) == 0 {
			b.sign(body.To)
		}
	}
	b.sheet.Turns = append(b.sheet.Turns, Turn{mark(e), body.To, words, body.Why, b.back(e.N)})
}

// takenBack files the taking back of what is shown nowhere else: answers.
func (b *builder) takenBack(e journal.Event, body *journal.Retracted) {
	for _, old := range b.job.Events() {
		if a, ok := old.Body.(*journal.Answered); ok && old.N == body.Event {
			b.say(e, "taken back", joined(": ", "the answer to “"+a.Ask+"”", answered(b.job, a))+joined("", because(body.Why)))
		}
	}
}

func answered(j *walk.Job, a *journal.Answered) string {
	if a.Choice != "" {
		return j.AnswerWords(a.Ask, a.Choice)
	}
	var said []string
	for _, k := range keys(a.Values) {
		said = append(said, a.Values[k])
	}
	return joined(", ", said...)
}

func because(why string) string {
	if why == "" {
		return ""
	}
	return ", because " + why
}

// cautions files what was shown, the first time.
func (b *builder) cautions(n int, ids []string) {
	for _, id := range ids {
		if b.shown(id) {
			continue
		}
		c := Caution{ID: id, Event: n}
		for _, known := range b.lib.Set.Cautions {
			if known.ID == id {
				c.Words = strings.TrimSpace(b.lib.Set.Jurisdictions[b.sheet.Rules.Jurisdiction.ID].Fill(known.Words))
			}
		}
		b.sheet.Cautions = append(b.sheet.Cautions, c)
	}
}

func (b *builder) shown(id string) bool {
	for _, c := range b.sheet.Cautions {
		if c.ID == id {
			return true
		}
	}
	return false
}
