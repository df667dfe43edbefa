package trees

import (
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// check reads one thing to measure or to look at.
func (r *reader) check(s *section) {
	id := s.id("id")
	keep := r.claim("check", id)
	c := &Check{ID: id.Value, Pos: id.Pos, Of: s.params(ParamKinds)}
	switch s.Which("read", "look") {
	case "read":
		r.measure(s, c)
	case "look":
		r.look(s, c)
	default: // reported; what else stands there belongs to one or the other
		s.Entries()
		return
	}
	r.state(s, c)
	r.checkProse(s, c)
	if keep {
		r.set.Checks[id.Value] = c
	}
}

func (r *reader) look(s *section, c *Check) {
	c.Look = s.text("look")
	for _, n := range few(s.List("answers")) {
		c.Answers = append(c.Answers, r.answer(s.sub(n, "an answer"), c.Answers))
	}
	c.Powered = s.yes("powered")
	c.Once = s.yes("once")
	c.Good = s.opt("good")
	r.answerIDs(c.Good, c)
}

func (r *reader) answer(s *section, before []Answer) Answer {
	id := s.id("id")
	for _, a := range before {
		if a.ID == id.Value && id.Value != "" {
			id.Problem("the answer %q comes twice; it is at line %d already", id.Value, a.Pos.Line)
		}
	}
	a := Answer{ID: id.Value, Say: s.prose("say"), When: s.opt("when"), Pos: id.Pos}
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

func (r *reader) measure(s *section, c *Check) {
	quantity := s.Text("read")
	if oneOfWords(quantity, "quantity", quantityNames()) {
		c.Read = quantity.Value
	}
	for _, n := range few(s.List("probes")) {
		c.Probes = append(c.Probes, r.probe(s.sub(n, "a probe"), c))
	}
	r.probeNames(s, c)
	scale := s.opt("scale")
	r.want("scale", scale, s.scope)
	c.Scale = scale.Value
	for _, e := range r.uses(s) {
		c.Uses = append(c.Uses, e)
	}
	c.Expect = s.opt("expect")
	r.expectation(c)
	c.Good = s.opt("good")
}

func (r *reader) uses(s *section) []Use {
	m, there := s.OptSub("uses")
	if !there {
		return nil
	}
	var all []Use
	for _, e := range m.Entries() {
		check := s.used(e.Value.Text("the check behind " + e.Key.Value))
		if !bandWord.MatchString(e.Key.Value) {
			e.Key.Problem("found the name %q; expected letters, digits and _, because it stands in the expectation", clip(e.Key.Value))
		}
		r.wantRef("check", check, s.scope)
		all = append(all, Use{As: e.Key.Value, Check: check})
	}
	return all
}

// state reads what must be so on the plant while the check is made.
func (r *reader) state(s *section, c *Check) {
	c.Calls = r.calls(s)
	c.For = s.number("for")
	c.Minutes = s.number("minutes")
	if !s.Has("minutes") {
		s.Problem("a check needs %q, the minutes it takes", "minutes")
	}
	c.Unplugged = s.texts("unplugged")
	c.Inside = s.texts("inside")
	c.Asks = r.asks(s)
	c.Dead = s.yes("dead")
	if c.Dead && len(c.Calls) > 0 {
		s.KeyProblem("dead", "a check done dead asks for a call; expected one or the other")
	}
}

func (r *reader) calls(s *section) []CallState {
	m, there := s.OptSub("calls")
	if !there {
		return nil
	}
	var all []CallState
	for _, e := range m.Entries() {
		all = append(all, CallState{Call: s.used(e.Key), On: e.Value.Bool("the call " + e.Key.Value)})
	}
	return all
}

func (r *reader) asks(s *section) []string {
	var all []string
	for _, t := range s.OptWords("asks") {
		if oneOfWords(t, "capability", Capabilities) {
			all = append(all, t.Value)
		}
	}
	return all
}

func (r *reader) checkProse(s *section, c *Check) {
	c.Where, c.How, c.Why = s.optProse("where"), s.optProse("how"), s.optProse("why")
	c.Else, c.Say, c.Source = s.optProse("else"), s.optProse("say"), s.optProse("source")
}

func quantityNames() []string {
	var names []string
	for _, q := range measurements.Quantities() {
		names = append(names, string(q))
	}
	return names
}
