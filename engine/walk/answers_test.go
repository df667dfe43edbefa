package walk_test

import (
	"strings"

	"faultwalk/engine/walk"
)

// answer is what the caller says to a question.
func (c *caller) answer(a *walk.Ask) walk.Answer {
	switch {
	case c.given >= maxTalk:
		return c.end(a)
	case c.one(10):
		return c.command(a)
	case c.one(40):
		return walk.Answer{Choice: "no such choice", Typed: "  ", Fields: []string{"perhaps"}}
	}
	switch a.Kind {
	case walk.Fill:
		return walk.Answer{Fields: c.fields(a)}
	case walk.Measure:
		return walk.Answer{Typed: c.reading(a)}
	case walk.Write:
		return walk.Answer{Typed: c.words(a)}
	}
	return walk.Answer{Choice: c.choice(a)}
}

// usual is what a person mostly answers to the questions before any tree; to
// be danger-free and competent leads furthest.
func (c *caller) usual(ask string) string {
	switch ask {
	case "danger":
		return "none"
	case "operator":
		return "here"
	case "hands":
		return "electrical"
	case "certificates":
		return "unvented refrigerant"
	case "plant":
		return c.plant
	case "symptom":
		return c.symptom
	case "acts":
		return "done"
	case "confirm":
		return "take"
	case "leave":
		return "back"
	case "pass":
		return "on"
	}
	for _, f := range c.house.plant[c.plant].Facts {
		if ask == "fact "+f.ID {
			return f.Is
		}
	}
	return ""
}

func (c *caller) choice(a *walk.Ask) string {
	usual := c.usual(a.ID)
	rare := 8
	if a.ID == "danger" || a.ID == "plant" || strings.HasPrefix(a.ID, "fact ") {
		rare = 30
	}
	if usual != "" && !c.one(rare) {
		return usual
	}
	if a.ID == "voltage found" && !c.one(4) {
		return a.Choices[c.Intn(max(1, len(a.Choices)-1))].ID // the last is to pass it on
	}
	if a.ID == "result" && !c.one(3) {
		return a.Choices[0].ID
	}
	if on := c.onward(a.Check); on != "" && !c.one(6) {
		return on
	}
	return a.Choices[c.Intn(len(a.Choices))].ID
}

// onward is an answer to a look that leads to a further step, if one does.
func (c *caller) onward(check string) string {
	var ids []string
	for _, g := range c.house.graphs[c.plant] {
		for _, path := range g.Order {
			if b := g.Steps[path]; b.Check.ID == check {
				for _, br := range b.Branches {
					if br.To.Go != "" {
						ids = append(ids, br.Answers...)
					}
				}
			}
		}
	}
	if len(ids) == 0 {
		return ""
	}
	return ids[c.Intn(len(ids))]
}

func (c *caller) words(a *walk.Ask) string {
	switch {
	case a.ID == "supervisor":
		return c.any("Ann Lind", "Ann Lind", "none", "")
	case c.one(6):
		return c.any("1", "2 3", "1,4", "none", "9", "", "multimeter two-pole")
	}
	return "all"
}

// fields fills a form: mostly zeros with the tester proved.
func (c *caller) fields(a *walk.Ask) []string {
	if a.ID == "tester" {
		if c.one(8) {
			return []string{c.any("no", "perhaps"), c.any("", "not known")}
		}
		return []string{"yes", "2026-01-10"}
	}
	var out []string
	for _, f := range a.Fields {
		switch {
		case !f.Number && c.one(30):
			out = append(out, c.any("no", "perhaps"))
		case !f.Number:
			out = append(out, "yes")
		case c.one(120), len(a.Fields) == 1 && c.one(2):
			out = append(out, c.any("118", "231", "23", "6", "5.1", "OL", "volts", "4-90 moving"))
		default:
			out = append(out, c.any("0", "0", "0", "0.3", "4.9"))
		}
	}
	if c.one(30) {
		out = out[:len(out)/2]
	}
	return out
}

// reading types a value: what a meter on such a point could show, or nonsense.
func (c *caller) reading(a *walk.Ask) string {
	if c.one(12) {
		return c.any("", "hot", "12 kg", "-0.3", ">20M", "<1", "1e9")
	}
	switch q := a.Reading.Quantity; {
	case q == "ac volts" && a.Reading.As == "ne" && !c.one(3):
		return c.any("0.4", "0", "1.2")
	case q == "ac volts" && a.Reading.As != "reading" && !c.one(3):
		return c.any("231", "231", "238.5", "0.3")
	case q == "ac volts":
		return c.any("0", "2.5", "0.2", "23", "52", "100", "119", "180", "215", "231", "231", "231", "240", "240", "255", "190-240 moving", "0.4", "0.4")
	case q == "celsius":
		return c.any("52", "20.5", "23", "0.2", "100")
	case q == "dc volts":
		return c.any("0", "2.5", "12.1", "12.1", "23", "-12")
	}
	return c.any("0.2", "0.2", "0.3", "2.5", "23", "231", "3k", "3k", "9k8", "OL", "OL", ">20M", "52M")
}

// command says something beside the question.
func (c *caller) command(a *walk.Ask) walk.Answer {
	name := "fly"
	if len(a.Commands) > 0 && !c.one(20) {
		name = a.Commands[c.Intn(len(a.Commands))].ID
	}
	if name == "give up" && !c.one(8) || name == "hand over" && !c.one(2) {
		name = "back"
	}
	ans := walk.Answer{Command: name}
	switch name {
	case "note":
		ans.Rest = c.any("", "the cupboard is wet")
	case "skip", "give up":
		ans.Rest = c.any("", "it was late")
	case "reading":
		ans.Rest = c.early()
	}
	return ans
}

// early is a reading known beforehand, of any check of this plant.
func (c *caller) early() string {
	graphs := c.house.graphs[c.plant]
	g := graphs[c.Intn(len(graphs))]
	b := g.Steps[g.Order[c.Intn(len(g.Order))]].Check
	if len(b.Answers) > 0 {
		return b.ID + "=" + b.Answers[c.Intn(len(b.Answers))].ID
	}
	return b.ID + "=" + c.any("231", "0", "0.4/231", "240/240/0.3", "OL", "3k", "hot", "1/2/3/4")
}

// end wants the job closed and does what is asked for that.
func (c *caller) end(a *walk.Ask) walk.Answer {
	for _, cmd := range a.Commands {
		if cmd.ID == "give up" {
			return walk.Answer{Command: "give up", Rest: "enough"}
		}
	}
	switch a.Kind {
	case walk.Fill:
		var out []string
		for _, f := range a.Fields {
			if f.Number {
				out = append(out, "0")
			} else {
				out = append(out, "yes")
			}
		}
		return walk.Answer{Fields: out}
	case walk.Measure:
		return walk.Answer{Typed: c.reading(a)}
	case walk.Write:
		if a.ID == "supervisor" {
			return walk.Answer{Typed: "Ann Lind"}
		}
		return walk.Answer{Typed: "all"}
	}
	if usual := c.usual(a.ID); usual != "" {
		return walk.Answer{Choice: usual}
	}
	for _, want := range []string{"refer", "isolated", "close", "leave"} {
		for _, x := range a.Choices {
			if x.ID == want {
				return walk.Answer{Choice: want}
			}
		}
	}
	return walk.Answer{Choice: a.Choices[c.Intn(len(a.Choices))].ID}
}
