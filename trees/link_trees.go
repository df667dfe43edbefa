package trees

import (
	"faultwalk/trees/prove"
	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// linkTrees checks branches against the checks and routines they stand behind.
func (l *loader) linkTrees() {
	prover := prove.New()
	for _, id := range keys(l.set.Symptoms) {
		for _, s := range l.set.Symptoms[id].Steps {
			l.linkStep(prover, s)
		}
	}
	for _, id := range keys(l.set.Routines) {
		for _, s := range l.set.Routines[id].Steps {
			l.linkStep(prover, s)
		}
	}
}

func (l *loader) linkStep(prover *prove.Prover, s *Step) {
	if s.Routine.Value != "" {
		l.linkExits(s)
		return
	}
	c := l.checkOf(s.Check)
	if c == nil {
		return
	}
	look := c.Look.Value != ""
	if s.Split.Value != "" {
		if look {
			s.Check.Problem("a split compares readings, and %q is a look; expected a measurement", c.ID)
			return
		}
		l.conditionOn(prover, c, s.Good)
		l.conditionOn(prover, c, s.Bad)
	}
	for _, b := range s.Branches {
		if look {
			l.linkAnswers(c, b)
		} else {
			l.linkCondition(prover, c, b)
		}
	}
	if n := len(s.Branches); len(c.Probes) > 1 && (n == 0 || !s.Branches[n-1].Else) {
		s.Check.Problem(`%q takes %d readings, so the first true branch wins and the last must be "else: true"; found none`, c.ID, len(c.Probes))
	}
}

// checkOf finds the check of a reference; nil where it was reported already.
func (l *loader) checkOf(t strict.Text) *Check {
	ref, err := ParseRef(t.Value)
	if err != nil {
		return nil
	}
	return l.set.Checks[ref.Name]
}

func (l *loader) linkAnswers(c *Check, b *Branch) {
	if b.If.Value != "" {
		b.If.Problem("%q is a look; expected answer, one of %s", c.ID, spelling.Quoted(answerNames(c)))
	}
	for _, a := range b.Answer {
		if !contains(answerNames(c), a.Value) {
			a.Problem("%q is no answer of %q; expected one of %s%s", clip(a.Value), c.ID, spelling.Quoted(answerNames(c)),
				l.suggest(a.Value, these(answerNames(c))))
		}
	}
}

func (l *loader) linkCondition(prover *prove.Prover, c *Check, b *Branch) {
	for _, a := range b.Answer {
		a.Problem(`%q is measured; expected "if" with a condition on its reading`, c.ID)
	}
	l.conditionOn(prover, c, b.If)
}

// linkExits compares the exits a step handles with those of its routine.
func (l *loader) linkExits(s *Step) {
	ref, err := ParseRef(s.Routine.Value)
	if err != nil {
		return
	}
	routine := l.set.Routines[ref.Name]
	if routine == nil {
		return
	}
	for exit, b := range s.Exits {
		if !contains(routine.Exits, exit) {
			l.problems = append(l.problems, problemAt(b.Pos, "the routine %q has no exit %q%s%s", routine.ID, clip(exit),
				listed(routine.Exits), l.suggest(exit, these(routine.Exits))))
		}
	}
	for _, exit := range routine.Exits {
		if s.Exits[exit] == nil {
			s.Routine.Problem("the routine %q may leave by %q; expected that exit under \"exits\"", routine.ID, exit)
		}
	}
}

// linkCauses checks what a confirming reading must be.
func (l *loader) linkCauses() {
	prover := prove.New()
	r := &reader{loader: l}
	for _, id := range keys(l.set.Causes) {
		confirm := l.set.Causes[id].Confirm
		if confirm == nil {
			continue
		}
		c := l.checkOf(confirm.Check)
		switch {
		case c == nil:
		case c.Look.Value != "":
			r.answerIDs(confirm.If, c)
		default:
			l.conditionOn(prover, c, confirm.If)
		}
	}
}
