package walk

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
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

// intakeStages are the questions before any tree, in their order.
func intakeStages() []stage {
	return []stage{
		question("danger", askDanger),
		{"danger met", askDangerMet, takeDangerMet},
		question("operator", plain("Who is using this?", operators)),
		question("hands", plain("Whose hands touch the plant?", handKinds)),
		question("certificates", askCertificates),
		{"supervisor", askSupervisor, takeSupervisor},
		{"instruments", askInstruments, takeInstruments},
		{"tester", askTester, takeTester},
		question("told", askTold),
		question("plant", askPlant),
		{"fact", askFact, takeFact},
		question("symptom", askSymptom),
		question("changed", plain("What changed lately?", changes)),
	}
}

// question is a stage whose answer is stored as given and asked once.
func question(id string, ask func(j *Job) *Ask) stage {
	return stage{id, func(j *Job) *Ask {
		if j.mind.answers[id] != nil {
			return nil
		}
		return ask(j)
	}, func(j *Job, a Answer) (taken, error) {
		c, err := pick(ask(j).Choices, a)
		if err != nil {
			return taken{}, err
		}
		return j.withHands(&journal.Answered{Ask: id, Choice: c}), nil
	}}
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
	return &Ask{Kind: Choose, Title: "Is anybody in danger now?", Choices: choices, Cautions: j.cautions("first")}
}

// askDangerMet says what to do and ends the job: nothing is measured first.
func askDangerMet(j *Job) *Ask {
	a := j.mind.answers["danger"]
	if a == nil || a.Choice == "none" {
		return nil
	}
	r := j.lib.Set.Referrals[a.Choice]
	return &Ask{ID: "danger met", Kind: Choose, Title: "Stop: " + r.Words, Body: stopWords(r), Cautions: j.cautions("danger"),
		Choices: []Choice{{ID: "read", Text: "read and passed on: close the job"}}}
}

func stopWords(r *trees.Referral) []string {
	body := []string{r.Say, "Whom to call: " + r.To}
	if r.Leave != "" {
		body = append(body, "Leave it like this: "+r.Leave)
	}
	return body
}

func takeDangerMet(j *Job, a Answer) (taken, error) {
	if a.Choice != "read" {
		return taken{}, &Refused{`expected "read", once it has been read out`}
	}
	r := j.lib.Set.Referrals[j.mind.answers["danger"].Choice]
	return taken{bodies: []any{&journal.Closed{As: journal.Referred, Words: r.Words, To: r.To}}}, nil
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

func (j *Job) answer(ask string) string {
	if a := j.mind.answers[ask]; a != nil {
		return a.Choice
	}
	return ""
}

func askInstruments(j *Job) *Ask {
	if k := j.answer("hands"); k == "householder" || j.mind.answers["instruments"] != nil {
		return nil
	}
	a := &Ask{Kind: Write, Title: "Which instruments are there? Numbers, all, or none"}
	for i, in := range j.lib.Kit.Instruments {
		a.Body = append(a.Body, fmt.Sprintf("  %d) %s", i+1, in.Name))
	}
	return a
}

func takeInstruments(j *Job, a Answer) (taken, error) {
	ids, err := chosenKit(j.lib.Kit, a.Typed)
	if err != nil {
		return taken{}, err
	}
	return j.withHands(&journal.Answered{Ask: "instruments", Values: map[string]string{"kit": strings.Join(ids, " ")}}), nil
}

// chosenKit reads "1 3", "1,3", "all" or "none"; ids are taken too.
func chosenKit(kit measurements.Kit, typed string) ([]string, error) {
	var ids []string
	words := strings.FieldsFunc(strings.ToLower(typed), func(r rune) bool { return r == ' ' || r == ',' })
	for _, w := range words {
		switch {
		case w == "all" && len(words) == 1:
			for _, in := range kit.Instruments {
				ids = append(ids, in.ID)
			}
			return ids, nil
		case w == "none" && len(words) == 1:
			return nil, nil
		}
		i := slices.IndexFunc(kit.Instruments, func(in measurements.Instrument) bool { return in.ID == w })
		if n := 0; i < 0 {
			if _, err := fmt.Sscanf(w, "%d", &n); err != nil || n < 1 || n > len(kit.Instruments) {
				return nil, &Refused{fmt.Sprintf("%q is no instrument of the list; expected numbers from 1 to %d, all or none", w, len(kit.Instruments))}
			}
			i = n - 1
		}
		if !slices.Contains(ids, kit.Instruments[i].ID) {
			ids = append(ids, kit.Instruments[i].ID)
		}
	}
	if len(ids) == 0 {
		return nil, &Refused{"expected numbers of the list, all or none"}
	}
	return ids, nil
}

// needsTester says whether a voltage tester is among the instruments: only
// with one, and a proving unit for it, can anything be proved dead.
func (j *Job) needsTester(ids []string) bool {
	for _, id := range ids {
		if in, ok := j.lib.Kit.Instrument(id); ok {
			if _, ok := in.Spec(measurements.TwoPoleUnloaded, measurements.ACVolts); ok {
				return true
			}
		}
	}
	return false
}

func askTester(j *Job) *Ask {
	kit := j.mind.answers["instruments"]
	if kit == nil || j.mind.answers["tester"] != nil || !j.needsTester(strings.Fields(kit.Values["kit"])) {
		return nil
	}
	return &Ask{Kind: Fill, Title: "The voltage tester", Fields: []Field{
		{Name: "proving unit", Text: "Is a proving unit there for it? yes or no", YesNo: true},
		{Name: "calibrated", Text: "When were the instruments last calibrated? A date, or not known"},
	}}
}

func takeTester(j *Job, a Answer) (taken, error) {
	if len(a.Fields) != 2 {
		return taken{}, &Refused{"expected yes or no, then a date or not known"}
	}
	yes, ok := yesNo(a.Fields[0])
	if !ok {
		return taken{}, &Refused{"expected yes or no: is a proving unit there?"}
	}
	date := strings.TrimSpace(a.Fields[1])
	if date == "" {
		return taken{}, &Refused{"expected when the instruments were last calibrated, or not known"}
	}
	return j.withHands(&journal.Answered{Ask: "tester", Choice: yes, Values: map[string]string{"calibrated": date}}), nil
}

func yesNo(s string) (string, bool) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "yes", "y":
		return "yes", true
	case "no", "n":
		return "no", true
	}
	return "", false
}

func askTold(j *Job) *Ask {
	return &Ask{Kind: Choose, Title: "Do the people there know what will be off, and for how long?",
		Body:    []string{"Heating, hot water and perhaps the internet. Anybody who depends on power for their health comes first."},
		Choices: []Choice{{ID: "yes", Text: "they know and agree"}, {ID: "empty", Text: "nobody is there"}}}
}

func askPlant(j *Job) *Ask {
	a := &Ask{Kind: Choose, Title: "Which plant is it?"}
	for _, id := range j.plantIDs() {
		a.Choices = append(a.Choices, Choice{ID: id, Text: j.lib.Set.Plants[id].Is})
	}
	return a
}

func (j *Job) plantIDs() []string {
	var ids []string
	for id := range j.lib.Set.Plants {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	return ids
}
