package trees

// cause reads what is wrong, how it is confirmed, put right and proved.
func (r *reader) cause(s *section) {
	id := s.id("id")
	keep := r.claim("cause", id)
	c := &Cause{ID: id.Value, Pos: id.Pos, Of: s.params(ParamKinds)}
	c.Words, c.Behind = s.prose("words"), s.optProse("behind")
	c.Rivals = s.texts("rivals")
	for _, t := range c.Rivals {
		r.wantRef("cause", t, s.scope)
	}
	if n := s.OptNode("confirm"); n != nil {
		c.Confirm = r.confirm(s.sub(n, `"confirm"`))
	}
	c.Remedy = r.remedy(s.sub(s.Node("remedy"), `"remedy"`))
	c.Retest = s.opt("retest")
	r.wantRef("check", c.Retest, s.scope)
	c.Customer, c.Night = s.optProse("customer"), s.optProse("night")
	c.Weight, c.Source = s.number("weight"), s.optProse("source")
	c.Observed = s.optProse("observed")
	if !keep {
		return
	}
	if old := r.set.Causes[id.Value]; old != nil {
		notLess(id, old.Remedy.Asks, c.Remedy.Asks, old.Remedy.Dead && !c.Remedy.Dead)
	}
	r.set.Causes[id.Value] = c
}

func (r *reader) confirm(s *section) *Confirm {
	c := &Confirm{Check: s.text("check"), If: s.text("if"), Rival: s.opt("rival")}
	r.wantRef("check", c.Check, s.scope)
	r.wantRef("cause", c.Rival, s.scope)
	s.Done()
	return c
}

func (r *reader) remedy(s *section) Remedy {
	v := Remedy{Do: s.prose("do"), Dead: s.yes("dead"), Inside: s.texts("inside"), Unplugged: s.texts("unplugged"),
		Asks: r.asks(s), Say: s.optProse("say")}
	for _, t := range s.texts("parts") {
		v.Parts = append(v.Parts, t.Value)
	}
	s.Done()
	return v
}
