package walk

import (
	"fmt"
	"sort"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// askFact confirms what turns expectations round, before any tree: monobloc or
// split, the kind of heat call, who feeds the board.
func askFact(j *Job) *Ask {
	f := j.nextFact()
	if f == nil {
		return nil
	}
	a := &Ask{ID: "fact " + f.ID, Kind: Choose, Title: f.Ask}
	if j.answer("operator") == "phone" && f.Say != "" {
		a.Body = j.sayWords(f.Say)
	}
	for _, o := range f.Options {
		a.Choices = append(a.Choices, Choice{ID: o.ID, Text: o.Say})
	}
	return a
}

func (j *Job) nextFact() *trees.Fact {
	if j.mind.plant == nil {
		return nil
	}
	for i, f := range j.mind.plant.Facts {
		if j.answer("fact "+f.ID) != f.Is {
			return &j.mind.plant.Facts[i]
		}
	}
	return nil
}

func takeFact(j *Job, a Answer) (taken, error) {
	f := j.nextFact()
	c, err := pick(askFact(j).Choices, a)
	if err != nil {
		return taken{}, err
	}
	t := taken{bodies: []any{&journal.Answered{Ask: "fact " + f.ID, Choice: c}}}
	if c != f.Is {
		t.say = []string{"That is not the plant you chose: " + disagreement(f, c) + ". Its readings would mean something else. Choose the plant again."}
	}
	return t, nil
}

// unknownFact is the option of those who cannot say.
const unknownFact = "unknown"

// disagreement says what a plant has and what was answered instead.
func disagreement(f *trees.Fact, answered string) string {
	has, got := f.Is, answered
	for _, o := range f.Options {
		if o.ID == f.Is {
			has = o.Say
		}
		if o.ID == answered {
			got = o.Say
		}
	}
	return fmt.Sprintf("to “%s” this plant has “%s”, and the answer was “%s”", f.Ask, has, got)
}

// answered files an answer and what follows from it.
func (j *Job) answered(b *journal.Answered) {
	m := j.mind
	m.answers[b.Ask] = b
	switch b.Ask {
	case "hand over":
		j.handingOver(b.Choice)
	case "plant":
		m.plant = j.plant(b.Choice)
		m.graph, m.walked = nil, nil
	case "symptom":
		m.graph, m.walked = nil, nil
	case "meter":
		m.meters[b.Values["probe"]]++
	case "give up", "result", "referral":
		j.ending(b)
	case "retest failed":
		j.failed(b)
	}
	j.unmatched(b)
	j.bind()
}

// handingOver asks about the hands anew, or has the present ones close up first.
func (j *Job) handingOver(choice string) {
	m := j.mind
	m.closeUp = ""
	switch choice {
	case "back", "safe":
		m.closeUp = choice
	case "yes":
		for _, q := range []string{"hands", "certificates", "watched", "supervisor", "instruments", "tester", "operator"} {
			delete(m.answers, q)
		}
		m.handing = true
	}
}

// unmatched sends back to the choice of plant when a fact is not this plant's.
func (j *Job) unmatched(b *journal.Answered) {
	m := j.mind
	if m.plant == nil {
		return
	}
	for _, f := range m.plant.Facts {
		if b.Ask == "fact "+f.ID && b.Choice != f.Is {
			m.unlike[m.plant.ID] = disagreement(&f, b.Choice)
			m.unsure = m.unsure || b.Choice == unknownFact
			for _, g := range m.plant.Facts {
				delete(m.answers, "fact "+g.ID)
			}
			delete(m.answers, "plant")
			m.plant, m.graph, m.walked = nil, nil, nil
			return
		}
	}
}

// bind makes the graph once plant, facts and symptom are known.
func (j *Job) bind() {
	m := j.mind
	if m.graph != nil || m.plant == nil || j.nextFact() != nil || j.answer("symptom") == "" {
		return
	}
	m.graph = j.graph(j.answer("symptom"))
	if m.graph != nil {
		m.place = m.graph.Start
		m.walked = append(m.walked, m.graph)
	}
}

func (j *Job) plant(id string) *trees.Plant {
	if p, ok := j.plants[id]; ok {
		return p
	}
	if j.lib.Set.Plants[id] == nil {
		return nil
	}
	p, problems := j.lib.Set.Compose(id)
	if len(problems) > 0 {
		p = nil
	}
	j.plants[id] = p
	return p
}

func (j *Job) graph(symptom string) *trees.Graph {
	key := j.mind.plant.ID + "\n" + symptom
	if g, ok := j.graphs[key]; ok {
		return g
	}
	if j.lib.Set.Symptoms[symptom] == nil {
		return nil
	}
	g, _ := j.lib.Set.Bind(symptom, j.mind.plant)
	j.graphs[key] = g
	return g
}

// takeSymptom refuses a tree of somebody's own that does not fit this plant.
func takeSymptom(j *Job, a Answer) (taken, error) {
	c, err := pick(askSymptom(j).Choices, a)
	if err != nil {
		return taken{}, err
	}
	if j.graph(c) == nil {
		return taken{}, &Refused{"the tree " + c + " does not fit this plant; faultwalk vet says why"}
	}
	return taken{bodies: []any{&journal.Answered{Ask: "symptom", Choice: c}}}, nil
}

func askSymptom(j *Job) *Ask {
	a := &Ask{Kind: Choose, Title: "What is wrong?"}
	var ids []string
	for id, s := range j.lib.Set.Symptoms {
		serves := s.Plants.Value == "" // a tree that names no plants serves all
		if !serves {
			serves, _ = j.mind.plant.Holds(s.Plants.Value)
		}
		if serves {
			ids = append(ids, id)
		}
	}
	sort.Strings(ids)
	for _, id := range ids {
		a.Choices = append(a.Choices, Choice{ID: id, Text: j.lib.Set.Symptoms[id].Sign})
	}
	return a
}
