package walk

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"faultwalk/engine/journal"
)

var operators = []Choice{
	{ID: "here", Text: "I am at the plant and my hands do the work"},
	{ID: "phone", Text: "I am on the phone with somebody at the plant"},
}

var handKinds = []Choice{
	{ID: "householder", Text: "householder or anybody else: nothing is opened"},
	{ID: "installer", Text: "heating installer without electrical competence"},
	{ID: "apprentice", Text: "apprentice under an electrically competent person"},
	{ID: "electrical", Text: "electrically competent person"},
}

var certificates = []Choice{
	{ID: "none", Text: "neither of these"},
	{ID: "unvented", Text: "unvented hot water"},
	{ID: "refrigerant", Text: "refrigerant"},
	{ID: "unvented refrigerant", Text: "both"},
}

func askCertificates(j *Job) *Ask {
	if j.answer("hands") == "householder" {
		return nil
	}
	return &Ask{Kind: Choose, Title: "Which certificates do those hands hold?", Choices: certificates}
}

// watches are the answers to whether an apprentice is supervised.
var watches = []Choice{{ID: "yes", Text: "yes, there and watching"}, {ID: "no", Text: "no: then only what an apprentice may do alone is left"}}

func askWatched(j *Job) *Ask {
	if j.answer("hands") != "apprentice" {
		return nil
	}
	return &Ask{Kind: Choose, Title: "Is an electrically competent person there who watches?", Choices: watches}
}

func askSupervisor(j *Job) *Ask {
	if j.answer("hands") != "apprentice" || j.answer("watched") != "yes" || j.mind.answers["supervisor"] != nil {
		return nil
	}
	return &Ask{Kind: Write, Title: "Name of the electrically competent person who watches"}
}

func takeSupervisor(j *Job, a Answer) (taken, error) {
	name := strings.TrimSpace(a.Typed)
	if !j.isName(name) {
		return taken{}, &Refused{fmt.Sprintf("%q is no name; expected the name of who is there and watches, or back if nobody is", name)}
	}
	return j.withHands(&journal.Answered{Ask: "supervisor", Values: map[string]string{"name": name}}), nil
}

// noNames are what people type where a name is asked and there is none.
var noNames = []string{"all", "any", "anyone", "anybody", "back", "he", "her", "him", "himself", "i", "me", "my", "myself", "na", "nah", "nil", "no",
	"nobody", "none", "not", "nothing", "null", "she", "someone", "somebody", "supervisor", "the supervisor", "they", "unknown", "us", "we", "y", "yeah", "yep", "yes"}

// isName says whether what was typed can be a person's name: two letters at
// least, no digit, and no answer to another question.
func (j *Job) isName(typed string) bool {
	letters := 0
	for _, r := range typed {
		switch {
		case unicode.IsDigit(r):
			return false
		case unicode.IsLetter(r):
			letters++
		}
	}
	low := strings.ToLower(typed)
	words := strings.FieldsFunc(low, func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' && r != '-' })
	if letters < 2 || len(words) == 0 {
		return false
	}
	known := slices.ContainsFunc(slices.Concat(handKinds, certificates, operators), func(c Choice) bool { return c.ID == low })
	_, kit := j.lib.Kit.Instrument(low)
	first := words[0] == "no" || words[0] == "not" || words[0] == "yes" || words[0] == "nobody" || words[0] == "none"
	return !known && !kit && !first && !slices.Contains(noNames, strings.Join(words, "")) && !slices.Contains(noNames, strings.Join(words, " "))
}

// withHands adds the handing over to the last answer about the hands.
func (j *Job) withHands(a *journal.Answered) taken {
	t := taken{bodies: []any{a}}
	if !j.mind.handing {
		return t
	}
	before := j.mind.answers[a.Ask]
	j.mind.answers[a.Ask] = a
	if h, whole := j.hands(); whole {
		t.bodies = append(t.bodies, &journal.Handed{Hands: h})
	}
	if j.mind.answers[a.Ask] = before; before == nil {
		delete(j.mind.answers, a.Ask)
	}
	return t
}

// watchedKnown says whether it is known who watches an apprentice, or that nobody does.
func (j *Job) watchedKnown() bool {
	w := j.answer("watched")
	return w == "no" || w == "yes" && j.mind.answers["supervisor"] != nil
}

// hands puts together who touches the plant; whole is false while something is still to be asked.
func (j *Job) hands() (h journal.Hands, whole bool) {
	h = journal.Hands{Kind: j.answer("hands"), Phone: j.answer("operator") == "phone"}
	if h.Kind == "" || j.answer("operator") == "" {
		return h, false
	}
	if h.Kind == "householder" {
		return h, true
	}
	c := j.mind.answers["certificates"]
	kit := j.mind.answers["instruments"]
	if c == nil || kit == nil || h.Kind == "apprentice" && !j.watchedKnown() {
		return h, false
	}
	if c.Choice != "none" {
		h.Certificates = strings.Fields(c.Choice)
	}
	if s := j.mind.answers["supervisor"]; s != nil && h.Kind == "apprentice" && j.answer("watched") == "yes" {
		h.Supervisor = s.Values["name"]
	}
	h.Kit = strings.Fields(kit.Values["kit"])
	if j.needsTester(h.Kit) {
		t := j.mind.answers["tester"]
		if t == nil {
			return h, false
		}
		h.ProvingUnit, h.Calibration = t.Choice == "yes", t.Values["calibrated"]
	}
	return h, true
}
