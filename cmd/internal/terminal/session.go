package terminal

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/measurements"
)

// Session takes a person through a job on a face. Every answer is stored before
// the next question shows.
type Session struct {
	Face  *Face
	Job   *walk.Job
	Store func(...journal.Event) error
	By    string
	Now   func() time.Time
	Given map[string]string // answers known beforehand, by question; used once
	Early []string          // readings known beforehand: CHECK=VALUE
}

// Run asks until the job is closed or stopped, or an error ends it. After an
// interrupt or a lost terminal what was answered is stored, and the job stopped.
func (s *Session) Run() error {
	for s.Job.Closed() == nil {
		stopped, err := s.turn()
		if err != nil {
			s.giveUp(err)
			return err
		}
		if stopped {
			return nil
		}
	}
	a := s.Job.Ask()
	s.Face.say(a.Title)
	s.Face.Print(a.Body...)
	return nil
}

// giveUp notes that the job was left; it is saved without that too.
func (s *Session) giveUp(err error) {
	out, failed := s.Job.Answer(walk.Answer{Command: "stop"}, s.By, s.Now())
	if failed != nil || errors.Is(err, errStore) {
		return
	}
	if s.Store(out.Events...) == nil {
		s.Job.Apply(out.Events...)
	}
}

var errStore = errors.New("the answer could not be stored")

// turn shows one question and stores its answer.
func (s *Session) turn() (stopped bool, err error) {
	ask := s.Job.Ask()
	if given := s.Given[ask.ID]; given != "" {
		delete(s.Given, ask.ID)
		return false, s.give(ask, walk.Answer{Choice: given})
	}
	if s.early(ask) {
		return false, nil
	}
	s.show(ask)
	answer, err := s.ask(ask)
	if err != nil {
		return false, err
	}
	return answer.Command == "stop", s.give(ask, answer)
}

// give hands an answer in; a refusal is shown and the question stays.
func (s *Session) give(ask *walk.Ask, a walk.Answer) error {
	out, err := s.Job.Answer(a, s.By, s.Now())
	if err != nil {
		s.Face.Print("  " + err.Error())
		return nil
	}
	if len(out.Events) > 0 {
		if err := s.Store(out.Events...); err != nil {
			return errors.Join(errStore, err)
		}
		s.Job.Apply(out.Events...)
	}
	if out.Reading != nil {
		s.Face.Print(drawn(ask, out.Reading)...)
	}
	for _, line := range out.Say {
		s.Face.Print("  = " + line)
	}
	return nil
}

// early hands in the readings known beforehand as soon as the tree is known.
func (s *Session) early(ask *walk.Ask) bool {
	if len(s.Early) == 0 || !offers(ask, "reading") {
		return false
	}
	text := s.Early[0]
	s.Early = s.Early[1:]
	s.Face.Print("Taken already: " + text)
	s.give(ask, walk.Answer{Command: "reading", Rest: text})
	return true
}

func offers(ask *walk.Ask, command string) bool {
	for _, c := range ask.Commands {
		if c.ID == command {
			return true
		}
	}
	return false
}

// show prints a question's cautions, title and text; where what to do is urgent,
// that comes first.
func (s *Session) show(a *walk.Ask) {
	s.Face.Print("")
	if a.Urgent {
		s.words(a)
		s.cautions(a)
		return
	}
	s.cautions(a)
	s.words(a)
}

// readOnce is how many cautions are named again; a longer list nobody reads.
const readOnce = 4

// cautions prints those not shown before in full, and names the others.
func (s *Session) cautions(a *walk.Ask) {
	var again []string
	for _, c := range a.Cautions {
		if c.Again {
			again = append(again, strings.ReplaceAll(c.ID, "-", " "))
			continue
		}
		s.Face.Print("! " + c.Words)
	}
	switch {
	case len(again) > readOnce:
		s.Face.Print(fmt.Sprintf("! As before: %d cautions; type cautions to read them.", len(again)))
	case len(again) > 0:
		s.Face.Print("! As before: " + strings.Join(again, ", ") + ".")
	}
}

// words prints a question's title and text, and what each reading would mean.
func (s *Session) words(a *walk.Ask) {
	s.Face.say(a.Title)
	s.Face.Print(a.Body...)
	if a.Reading != nil && len(a.Reading.Ranges) > 0 {
		s.Face.Print("What it would mean:")
		s.Face.Print(drawn(a, nil)...)
	}
}

// drawn is the question's ranges, a row each. Where a reading fell is marked by
// a sign and in words; nil marks none.
func drawn(a *walk.Ask, fell *walk.Fallen) []string {
	if a.Reading == nil {
		return nil
	}
	var out []string
	for _, r := range a.Reading.Ranges {
		row := "   " + r.Words + ": " + r.Meaning
		if fell != nil && r.Holds(fell.Within) {
			row = " > " + r.Words + ": " + r.Meaning + " (" + fell.Words + " falls here)"
		}
		out = append(out, row)
	}
	return out
}

// ask gets an answer, or a command in its place.
func (s *Session) ask(a *walk.Ask) (walk.Answer, error) {
	commands := commandOptions(a.Commands)
	switch a.Kind {
	case walk.Choose:
		c, err := s.Face.Choose("", options(a.Choices), commands)
		if err != nil {
			return walk.Answer{}, err
		}
		if c.Command {
			return s.command(a, c)
		}
		return walk.Answer{Choice: c.ID}, nil
	case walk.Measure:
		return s.line(a, "Measure, step back, then enter", commands)
	case walk.Write:
		return s.line(a, "", commands)
	}
	return s.form(a, commands)
}

// offeredAlways are the commands named at every question; help names the others.
var offeredAlways = []string{"why", "back", "skip", "stop"}

// commandOptions are commands as the face takes them.
func commandOptions(choices []walk.Choice) []Option {
	var out []Option
	for _, c := range choices {
		out = append(out, Option{ID: strings.ReplaceAll(c.ID, " ", "-"), Text: c.ID, Words: takesWords(c.ID), Quiet: !slices.Contains(offeredAlways, c.ID)})
	}
	return append(out, Option{ID: "help"})
}

func options(choices []walk.Choice) []Option {
	var out []Option
	for _, c := range choices {
		out = append(out, Option{ID: c.ID, Text: c.Text, Detail: c.Detail})
	}
	return out
}

// takesWords says which commands have words behind them.
func takesWords(id string) bool {
	return id == "note" || id == "reading" || id == "skip" || id == "give up"
}

// command completes a command that wants words; help is answered here, and the
// question asked again.
func (s *Session) command(ask *walk.Ask, c Choice) (walk.Answer, error) {
	if c.ID == "help" {
		for _, known := range ask.Commands {
			s.Face.Print("  " + known.ID + ": " + known.Text)
		}
		s.Face.Print("Ctrl-C saves and leaves at any time.")
		return s.ask(ask)
	}
	a := walk.Answer{Command: strings.ReplaceAll(c.ID, "-", " "), Rest: c.Words}
	if a.Rest != "" || c.ID != "note" && c.ID != "reading" {
		return a, nil
	}
	label := "Remark"
	if c.ID == "reading" {
		label = "CHECK=VALUE"
	}
	words, err := s.Face.Text(label)
	a.Rest = words
	return a, err
}

// line asks for one line, or a command in its place.
func (s *Session) line(a *walk.Ask, label string, commands []Option) (walk.Answer, error) {
	if a.Kind == walk.Measure {
		s.Face.Print(offered(commands)...)
	}
	typed, err := s.Face.Line(label, nil)
	if err != nil {
		return walk.Answer{}, err
	}
	if c, ok := Command(typed, commands); ok {
		return s.command(a, c)
	}
	return walk.Answer{Typed: typed}, nil
}

// form asks a line for each field; several plain numbers on one line fill the
// fields that follow, up to one that ends the form. A command leaves the form, and nothing of it counts.
func (s *Session) form(a *walk.Ask, commands []Option) (walk.Answer, error) {
	var values []string
	for len(values) < len(a.Fields) {
		f := a.Fields[len(values)]
		typed, err := s.Face.Line(f.Text, nil)
		if err != nil {
			return walk.Answer{}, err
		}
		if c, ok := Command(typed, commands); ok {
			s.Face.Print("The form is left; nothing of it was recorded.")
			return s.command(a, c)
		}
		parts := filled(a.Fields[len(values):], typed)
		if why := misfit(a.Fields[len(values):], parts); why != "" {
			s.Face.Print("  " + why)
			continue
		}
		for _, p := range parts {
			ends := a.Fields[len(values)].Ends(p)
			if values = append(values, p); ends {
				return walk.Answer{Fields: values}, nil
			}
		}
	}
	return walk.Answer{Fields: values}, nil
}

// filled is what one line gives the fields that come next: itself, several
// numbers, or with "all 0" a zero for each up to the next line that wants a word.
func filled(fields []walk.Field, typed string) []string {
	if !strings.EqualFold(strings.Join(strings.Fields(typed), " "), "all 0") {
		return walk.Numbers(typed)
	}
	var out []string
	for _, f := range fields {
		if !f.Number {
			break
		}
		out = append(out, "0")
	}
	if len(out) == 0 {
		return []string{typed}
	}
	return out
}

// misfit says why a line cannot fill the fields that come next.
func misfit(fields []walk.Field, parts []string) string {
	if len(parts) > len(fields) {
		return "there are more numbers here than lines left"
	}
	for i, p := range parts {
		if why := unfit(fields[i], p, len(parts) > 1); why != "" {
			return why
		}
	}
	return ""
}

func unfit(f walk.Field, typed string, several bool) string {
	word := strings.ToLower(strings.TrimSpace(typed))
	switch {
	case f.Number:
		if _, err := measurements.Parse(measurements.ACVolts, typed); err != nil {
			return err.Error()
		}
	case several:
		return "the numbers reach a line that wants a word: " + f.Text
	case f.YesNo && word != "yes" && word != "no" && word != "y" && word != "n":
		return "expected yes or no"
	case word == "":
		return "expected some words"
	}
	return ""
}
