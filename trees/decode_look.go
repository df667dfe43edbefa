package trees

import (
	"strings"

	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// look reads a question to eyes, ears and hands, with the answers it can have.
func (r *reader) look(s *section, c *Check) {
	c.Look = s.text("look")
	for _, n := range few(s.List("answers")) {
		c.Answers = append(c.Answers, r.answer(s.sub(n, "an answer"), c.Answers))
	}
	c.Powered = s.yes("powered")
	c.Once = s.yes("once")
	c.Sure = lookSure
	if s.Has("sure") {
		if c.Sure = s.number("sure"); c.Sure <= 0 || c.Sure > 1 {
			s.KeyProblem("sure", "a look is sure with chance %v; expected more than 0 and at most 1", c.Sure)
		}
	}
	c.Good = s.opt("good")
	r.answerIDs(c.Good, c)
}

// lookSure is the chance that a look shows what is there, unless it says
// otherwise. Common practice, no source.
const lookSure = 0.95

func (r *reader) answer(s *section, before []Answer) Answer {
	id := s.id("id")
	for _, a := range before {
		if a.ID == id.Value && id.Value != "" {
			id.Problem("the answer %q comes twice; it is at line %d already", id.Value, a.Pos.Line)
		}
	}
	a := Answer{ID: id.Value, Say: s.prose("say"), Pos: id.Pos}
	when, _ := s.OptScalar("when")
	a.When = s.used(when)
	formulaOf(a.When, "when")
	s.Done()
	return a
}

// answerIDs checks answers joined by " or ".
func (r *reader) answerIDs(t strict.Text, c *Check) {
	if t.Value == "" {
		return
	}
	at := 0
	for _, id := range strings.Split(t.Value, " or ") {
		if !contains(answerNames(c), id) {
			t.ProblemAt(t.AtOffset(at), "%q is no answer of %q; expected answers joined by \" or \", of %s%s", clip(id), c.ID,
				spelling.Quoted(answerNames(c)), spelling.DidYouMean(id, answerNames(c)))
			return
		}
		at += len([]rune(id)) + len(" or ")
	}
}

func answerNames(c *Check) []string {
	var names []string
	for _, a := range c.Answers {
		if a.ID != "" {
			names = append(names, a.ID)
		}
	}
	return names
}
