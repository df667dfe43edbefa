package trees

import (
	"faultwalk/measurements"
	"faultwalk/trees/formula"
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
	if !keep {
		return
	}
	if old := r.set.Checks[id.Value]; old != nil {
		notLess(id, old.Asks, c.Asks, old.Dead && !c.Dead)
	}
	r.set.Checks[id.Value] = c
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
	c.Uses = append(c.Uses, r.uses(s)...)
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
	c.Lifted = s.texts("lifted")
	c.Does = s.acts("does")
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

// acts reads what a check does to the plant for good.
func (s *section) acts(key string) []strict.Text {
	all := s.texts(key)
	for _, t := range all {
		if at, err := formula.CheckActs(t.Value); err != nil {
			t.ProblemAt(t.AtOffset(at), "%v", err)
		}
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
