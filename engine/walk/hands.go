package walk

import (
	"strings"

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

func askSupervisor(j *Job) *Ask {
	if j.answer("hands") != "apprentice" || j.mind.answers["supervisor"] != nil {
		return nil
	}
	return &Ask{Kind: Write, Title: "Name of the electrically competent person who is there and watches",
		Body: []string{"Type none if nobody is: then only what an apprentice may do alone is left."}}
}

func takeSupervisor(j *Job, a Answer) (taken, error) {
	name := strings.TrimSpace(a.Typed)
	if name == "" {
		return taken{}, &Refused{"expected a name, or none"}
	}
	return j.withHands(&journal.Answered{Ask: "supervisor", Values: map[string]string{"name": name}}), nil
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
	if c == nil || kit == nil || h.Kind == "apprentice" && j.mind.answers["supervisor"] == nil {
		return h, false
	}
	if c.Choice != "none" {
		h.Certificates = strings.Fields(c.Choice)
	}
	if s := j.mind.answers["supervisor"]; s != nil && h.Kind == "apprentice" && s.Values["name"] != "none" {
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
