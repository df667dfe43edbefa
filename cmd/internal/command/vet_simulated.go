package command

import (
	"fmt"
	"maps"
	"slices"

	"faultwalk/engine/plant"
	"faultwalk/engine/rehearse"
	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/vet"
)

// proved vets a set, then simulates its plants healthy and walks its authors'
// cases: a plant that cannot be simulated, a check whose meter changes a healthy
// plant and a case that comes out otherwise are problems too.
func proved(p *progress, set *trees.Set) vet.Report {
	kit := measurements.DefaultKit()
	report := vet.Vet(set, kit, p.count)
	if !report.Clean() || len(set.Models) == 0 {
		return report
	}
	for _, id := range slices.Sorted(maps.Keys(set.Plants)) {
		for _, p := range simulatedProblems(set, id, kit) {
			report.Problems = merged(report.Problems, p)
		}
	}
	for _, p := range rehearse.Tell(set, kit) {
		report.Problems = append(report.Problems, vet.Problem{File: p.File, Line: p.Line, Col: p.Col, Kind: vet.Case, Message: p.Message})
	}
	return report
}

// merged adds a problem, or its plant to the same one of other plants.
func merged(all []vet.Problem, p vet.Problem) []vet.Problem {
	for i := range all {
		if q := &all[i]; q.File == p.File && q.Line == p.Line && q.Col == p.Col && q.Message == p.Message {
			q.Plants = append(q.Plants, p.Plants...)
			return all
		}
	}
	return append(all, p)
}

func simulatedProblems(set *trees.Set, id string, kit measurements.Kit) (out []vet.Problem) {
	p, problems := set.Compose(id)
	if len(problems) > 0 {
		return nil // vet has told them
	}
	m, problems := plant.Compile(set, p)
	for _, x := range problems {
		out = append(out, vet.Problem{File: x.File, Line: x.Line, Col: x.Col, Kind: vet.Model, Message: x.Message, Plants: []string{id}})
	}
	if len(problems) > 0 {
		return out
	}
	checks, _ := set.ChecksOn(p) // vet has told what cannot be bound
	for _, d := range m.Disturbed(checks, kit) {
		pos := d.Check.Check.Pos
		out = append(out, vet.Problem{File: pos.File, Line: pos.Line, Col: pos.Col, Kind: vet.Disturbing, Plants: []string{id},
			Message: fmt.Sprintf("%s: the meter changes the healthy plant in the mode %q: %s; expected a mode that loads it less, or another pair",
				d.Check.ID, d.Mode, d.What)})
	}
	return out
}
