package walk

import (
	"fmt"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// askReferral stops or passes the job on, with the reason and what is left.
func askReferral(j *Job) *Ask {
	r := j.mind.place.Refer
	if r == nil || j.mind.graph == nil {
		return nil
	}
	ask := &Ask{ID: "referral", Kind: Choose, Title: "This goes to somebody else: " + r.Words, Urgent: r.Stop}
	if j.mind.hands.Phone || r.Stop {
		ask.Body = j.sayWords(r.Say)
	}
	ask.Body = append(ask.Body, "To: "+r.To)
	if r.Stop {
		ask.Title, ask.Cautions = "Stop: "+r.Words, j.cautions("danger")
	}
	if r.Leave != "" {
		ask.Body = append(ask.Body, "Leave it like this: "+r.Leave)
	}
	if !r.Stop {
		ask.Body = append(ask.Body, j.possibleWords()...)
	}
	ask.Choices = []Choice{{ID: "refer", Text: "pass it on"}}
	return ask
}

func takeReferral(j *Job, x Answer) (taken, error) {
	if _, err := pick(askReferral(j).Choices, x); err != nil {
		return taken{}, err
	}
	return taken{bodies: []any{j.mind.tell("referral", "refer")}}, nil
}

// askPass goes on to another sign's tree.
func askPass(j *Job) *Ask {
	to := j.lib.Set.Symptoms[j.mind.place.Pass]
	if to == nil || j.mind.graph == nil {
		return nil
	}
	ask := &Ask{ID: "pass", Kind: Choose, Title: "This is another sign: " + to.Sign, Choices: []Choice{{ID: "refer", Text: "pass the job on"}}}
	if j.graph(to.ID) != nil {
		ask.Body = []string{"What was read so far still counts."}
		ask.Choices = append([]Choice{{ID: "on", Text: "go on with that"}}, ask.Choices...)
	}
	return ask
}

func takePass(j *Job, x Answer) (taken, error) {
	c, err := pick(askPass(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	if c == "refer" {
		return taken{bodies: []any{j.mind.tell("referral", "refer")}}, nil
	}
	return taken{bodies: []any{&journal.Turned{To: j.mind.place.Pass, Why: "the readings lead to another sign"}}}, nil
}

// possibleShown is how many causes a question names that are still possible; why
// and the sheet have all of them.
const possibleShown = 3

func (j *Job) possibleWords() []string {
	left := j.reachable()
	switch n := len(left) - possibleShown; {
	case len(left) == 0:
		return nil
	case n > 0:
		return []string{fmt.Sprintf("Still possible: %s; and %d more (why lists them).", strings.Join(left[:possibleShown], "; "), n)}
	}
	return []string{"Still possible: " + strings.Join(left, "; ") + "."}
}

// allPossible lists every cause that is still possible, a line each.
func (j *Job) allPossible() []string {
	var out []string
	for _, c := range j.reachable() {
		out = append(out, "Still possible: "+c+".")
	}
	return out
}

// reachable lists the words of the causes that can still be reached from the
// step that could not be answered, or from where the walk stands.
func (j *Job) reachable() []string {
	m := j.mind
	seen := map[string]bool{}
	var out []string
	add := func(g *trees.Graph, t trees.Target) {
		for _, c := range g.Causes(t) {
			if !seen[c.ID] {
				seen[c.ID] = true
				out = append(out, c.Words)
			}
		}
	}
	add(m.graph, m.place)
	for _, p := range m.trail {
		if p.branch < 0 && p.read == nil {
			for _, br := range p.step.Branches {
				add(p.graph, br.To)
			}
		}
	}
	return out
}
