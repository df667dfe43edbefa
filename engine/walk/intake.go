package walk

import (
	"fmt"
	"sort"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// dangers are the answers to the first question that end a job at once; the
// ids are referrals (handbook 5.1).
var dangers = []Choice{
	{ID: "burning", Text: "burning smell, scorching or sparks"},
	{ID: "shock-or-tingle", Text: "a shock or a tingle from metal, taps, pipes or the outdoor unit"},
	{ID: "water-on-electrics", Text: "water on or in anything electrical"},
	{ID: "hot-relief-discharge", Text: "hot water or steam from a relief pipe"},
	{ID: "refrigerant-leak", Text: "a hiss, mist or oil at the outdoor unit"},
}

// changes are what may have changed lately; each raises some causes (handbook 4.4).
var changes = []Choice{
	{ID: "nothing", Text: "nothing that anybody knows of"},
	{ID: "controls", Text: "new installation, or controls changed in the last month"},
	{ID: "drained", Text: "drained, refilled or commissioned in the last weeks"},
	{ID: "wet", Text: "a leak, damp or heavy rain"},
	{ID: "power-cut", Text: "a power cut"},
	{ID: "trades", Text: "other trades in the house"},
	{ID: "first-cold", Text: "first use after the summer"},
	{ID: "frost", Text: "a spell of frost"},
	{ID: "unknown", Text: "not known"},
}

// intakeStages are the questions before any tree, in their order.
func intakeStages() []stage {
	return []stage{
		question("danger", askDanger),
		{"danger met", askDangerMet, takeDangerMet},
		question("operator", plain("Who is using this?", operators)),
		question("hands", plain("Whose hands touch the plant?", handKinds)),
		question("certificates", askCertificates),
		question("watched", askWatched),
		{"supervisor", askSupervisor, takeSupervisor},
		{"instruments", askInstruments, takeInstruments},
		{"tester", askTester, takeTester},
		question("told", askTold),
		question("plant", askPlant),
		{"no plant", askNoPlant, takeNoPlant},
		{"fact", askFact, takeFact},
		{"symptom", unasked("symptom", askSymptom), takeSymptom},
		question("changed", plain("What changed lately?", changes)),
	}
}

// question is a stage whose answer is stored as given and asked once.
func question(id string, ask func(j *Job) *Ask) stage {
	return stage{id, unasked(id, ask), func(j *Job, a Answer) (taken, error) {
		c, err := pick(ask(j).Choices, a)
		if err != nil {
			return taken{}, err
		}
		return j.withHands(&journal.Answered{Ask: id, Choice: c}), nil
	}}
}

// unasked asks until there is an answer.
func unasked(id string, ask func(j *Job) *Ask) func(j *Job) *Ask {
	return func(j *Job) *Ask {
		if j.mind.answers[id] != nil {
			return nil
		}
		return ask(j)
	}
}

func plain(title string, choices []Choice) func(*Job) *Ask {
	return func(*Job) *Ask { return &Ask{Kind: Choose, Title: title, Choices: choices} }
}

// pick checks that a choice is one of those asked.
func pick(choices []Choice, a Answer) (string, error) {
	var ids []string
	for _, c := range choices {
		if c.ID == a.Choice {
			return c.ID, nil
		}
		ids = append(ids, c.ID)
	}
	return "", &Refused{fmt.Sprintf("%q is not one of the choices; expected %s", a.Choice, strings.Join(ids, ", "))}
}

func askDanger(j *Job) *Ask {
	choices := append([]Choice{{ID: "none", Text: "none of these"}}, dangers...)
	at := []string{"first"}
	if j.mind.jurisdiction != "gb" { // the numbers and colours of the trees are British
		at = append(at, "abroad")
	}
	return &Ask{Kind: Choose, Title: "Is anybody in danger now?", Choices: choices, Cautions: j.cautions(at...)}
}

// askDangerMet says what to do and ends the job: nothing is measured first.
func askDangerMet(j *Job) *Ask {
	a := j.mind.answers["danger"]
	if a == nil || a.Choice == "none" {
		return nil
	}
	r := j.lib.Set.Referrals[a.Choice]
	return &Ask{ID: "danger met", Kind: Choose, Title: "Stop: " + r.Words, Body: j.stopWords(r), Cautions: j.cautions("danger"), Urgent: true,
		Choices: []Choice{{ID: "read", Text: "read and passed on: close the job"}}}
}

// stopWords are what to say first, then whom to call and how it is left.
func (j *Job) stopWords(r *trees.Referral) []string {
	return append(j.sayWords(r.Say), j.leaveWords(r)...)
}

func (j *Job) leaveWords(r *trees.Referral) []string {
	body := []string{"Whom to call: " + r.To}
	if r.Leave != "" {
		body = append(body, "Leave it like this: "+r.Leave)
	}
	return body
}

// sayWords marks words to be read out. Before it is known who is there, they
// may be for somebody else or for the reader; at the plant they are for the reader.
func (j *Job) sayWords(words string) []string {
	words = strings.TrimSpace(words)
	switch {
	case words == "":
		return nil
	case j.mind.hands.Phone || j.answer("operator") == "phone":
		return []string{"Say: “" + words + "”"}
	case j.answer("operator") == "":
		return []string{"Say (if somebody else is there): “" + words + "”"}
	}
	return []string{words}
}

func takeDangerMet(j *Job, a Answer) (taken, error) {
	if a.Choice != "read" {
		return taken{}, &Refused{`expected "read", once it has been read out`}
	}
	r := j.lib.Set.Referrals[j.mind.answers["danger"].Choice]
	return taken{bodies: []any{&journal.Closed{As: journal.Referred, Words: r.Words, To: r.To}}}, nil
}

func (j *Job) answer(ask string) string {
	if a := j.mind.answers[ask]; a != nil {
		return a.Choice
	}
	return ""
}

func askTold(j *Job) *Ask {
	return &Ask{Kind: Choose, Title: "Do the people there know what will be off, and for how long?",
		Body:    []string{"Heating, hot water and perhaps the internet. Anybody who depends on power for their health comes first."},
		Choices: []Choice{{ID: "yes", Text: "they know and agree"}, {ID: "empty", Text: "nobody is there"}}}
}

func (j *Job) plantIDs() []string {
	var ids []string
	for id := range j.lib.Set.Plants {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	return ids
}
