package vet

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// compose puts every plant together; one that cannot be is reported and left out.
func (v *vetting) compose() {
	for i, id := range slices.Sorted(maps.Keys(v.set.Plants)) {
		if i == maxPlants {
			v.at(v.set.Plants[id].Pos, TooMuch, fmt.Sprintf("there are %d plants; expected at most %d, so this one and the rest were not looked at", len(v.set.Plants), maxPlants))
			return
		}
		p, problems := v.set.Compose(id)
		for _, q := range problems {
			v.found.add(q.Pos(), Unbindable, q.Message, "", id)
		}
		if p == nil {
			continue
		}
		v.plants = append(v.plants, p)
		v.facts(p)
	}
}

// graphs binds every symptom to every plant and looks at what comes of it.
func (v *vetting) graphs(progress func(done, total int)) {
	symptoms := slices.Sorted(maps.Keys(v.set.Symptoms))
	total := len(symptoms) * len(v.plants)
	for i := range total {
		symptom, plant := v.set.Symptoms[symptoms[i/len(v.plants)]], v.plants[i%len(v.plants)]
		if i == maxGraphs || v.stepsN > maxSteps {
			v.at(symptom.Pos, TooMuch, "symptoms times plants, or their steps together, are more than is looked at: this one and the rest were not proved")
			v.unbound++
			break
		}
		progress(i, total)
		v.graph(symptom, plant)
	}
	progress(total, total)
}

// graph binds one symptom to one plant and proves all of it.
func (v *vetting) graph(symptom *trees.Symptom, p *trees.Plant) {
	g, problems := v.set.Bind(symptom.ID, p)
	for _, q := range problems {
		v.found.add(q.Pos(), Unbindable, strings.TrimSuffix(q.Message, " (on "+p.ID+")"), "", p.ID)
	}
	if len(problems) > 0 {
		v.unbound++
		return
	}
	if g == nil {
		return
	}
	v.graphsN++
	v.stepsN += len(g.Order)
	v.used.graph(g)
	v.cleared(p, g)
	for _, path := range g.Order {
		v.step(p, g, g.Steps[path])
	}
}

// step looks at one bound step: its check, its branches and where they lead.
func (v *vetting) step(p *trees.Plant, g *trees.Graph, b *trees.Bound) {
	if v.used.check(p, b.Check) {
		v.check(p, b.Check, b.Pos)
	}
	if len(b.Check.Probes) == 0 {
		v.look(b)
	} else {
		v.measured(p, b)
	}
	v.deadWay(p, g, b)
	for _, br := range b.Branches {
		v.target(p, g, br)
		v.second(p, b, br)
	}
}

// target looks at where a branch leads.
func (v *vetting) target(p *trees.Plant, g *trees.Graph, br *trees.BoundBranch) {
	t := br.To
	for _, c := range t.Causes {
		if v.used.cause(p, c) {
			v.cause(p, c)
		}
	}
	if t.Refer != nil {
		v.used.referrals[t.Refer.ID] = true
	}
	if t.Pass != "" {
		v.pass(p, g, br)
	}
}

// pass reports a passing on to a tree that does not serve this plant, or to
// the tree itself.
func (v *vetting) pass(p *trees.Plant, g *trees.Graph, br *trees.BoundBranch) {
	to := v.set.Symptoms[br.To.Pass]
	switch {
	case to == nil:
	case to.ID == g.Symptom.ID:
		v.on(p, br.Pos, Unbindable, "passes on to "+quoted(to.ID)+", which is this tree; a tree only goes on")
	case to.Plants.Value != "":
		if serves, err := p.Holds(to.Plants.Value); err == nil && !serves {
			v.on(p, br.Pos, Unbindable, "passes on to "+quoted(to.ID)+", which does not serve this plant")
		}
	}
}

// deadWay reports a step offered as the dead way of another that is not done dead.
func (v *vetting) deadWay(p *trees.Plant, g *trees.Graph, b *trees.Bound) {
	if b.Dead == "" {
		return
	}
	way := g.Steps[b.Dead]
	if way != nil && way.Check.Need.Power == trees.Live {
		v.on(p, b.Pos, NotDead, "offers "+quoted(way.Check.ID)+" as the dead way, and that is read live")
	}
}

// check looks at a bound check once on each plant. At is where it is used first.
func (v *vetting) check(p *trees.Plant, c *trees.BoundCheck, at strict.Pos) {
	for _, as := range slices.Sorted(maps.Keys(c.Uses)) {
		if v.used.check(p, c.Uses[as]) {
			v.check(p, c.Uses[as], c.Check.Pos)
		}
	}
	v.good(p, c)
	v.whens(p, c)
	v.pairs(p, c)
	v.reaches(p, c.Need, at, "the check "+quoted(c.ID))
	v.talk(p, c.Check.Pos, "the check "+quoted(c.Check.ID), c.Say, c.Need)
}

// cause looks at a bound cause once on each plant.
func (v *vetting) cause(p *trees.Plant, c *trees.BoundCause) {
	pos := c.Cause.Pos
	if c.Confirm != nil {
		v.extra(p, c.Confirm.Check, pos)
		v.condition(p, c.Confirm.Check, c.Confirm.If, "the confirming reading of "+quoted(c.Cause.ID))
	}
	if c.Retest != nil {
		v.extra(p, c.Retest, pos)
		if c.Retest.Good.Value == "" {
			v.at(c.Cause.Retest.Pos, Missing, "the check "+quoted(c.Retest.Check.ID)+" says nothing of what is good, so it can prove no repair; give it \"good\"")
		}
	}
	v.reaches(p, c.Remedy.Need, pos, "the remedy of "+quoted(c.ID))
	v.talk(p, pos, "the remedy of "+quoted(c.Cause.ID), c.Remedy.Say, c.Remedy.Need)
}

func (v *vetting) extra(p *trees.Plant, c *trees.BoundCheck, at strict.Pos) {
	if v.used.check(p, c) {
		v.check(p, c, at)
	}
}

// cleared looks at the check that says whether the sign is gone.
func (v *vetting) cleared(p *trees.Plant, g *trees.Graph) {
	if g.Cleared == nil {
		return
	}
	v.extra(p, g.Cleared, g.Symptom.Cleared.Pos)
	if g.Cleared.Good.Value == "" {
		v.at(g.Symptom.Cleared.Pos, Missing, "the check "+quoted(g.Cleared.Check.ID)+" says nothing of what is good, so nothing counts as cleared; give it \"good\"")
	}
}
