package trees

import "faultwalk/trees/strict"

// step reads one place in a tree: a check, a split of a chain, or a routine.
func (r *reader) step(s *section, t *tree) *Step {
	id := s.id("id")
	v := &Step{ID: id.Value, Pos: id.Pos}
	t.add(id)
	v.If = s.opt("if")
	r.predicate(v.If)
	v.Otherwise, v.Dead = s.opt("otherwise"), s.opt("dead")
	t.goes = append(t.goes, v.Otherwise, v.Dead)
	v.Why = s.optProse("why")
	r.stepKind(s, v, t)
	s.Done()
	return v
}

func (r *reader) stepKind(s *section, v *Step, t *tree) {
	if s.Has("split") {
		r.split(s, v, t)
		return
	}
	switch s.Which("check", "routine", "split") {
	case "check":
		v.Check = s.text("check")
		r.wantRef("check", v.Check, s.scope)
		v.Branches = r.branches(s, t, s.List("branches"))
	case "routine":
		v.Routine = s.text("routine")
		r.wantRef("routine", v.Routine, s.scope)
		r.exits(s, v, t)
	default: // reported; what else stands there belongs to a step of some kind
		s.Entries()
	}
}

func (t *tree) add(id strict.Text) {
	if before, twice := t.pos[id.Value]; twice && id.Value != "" {
		id.Problem("the step %q comes twice; it is at line %d already", id.Value, before.Line)
		return
	}
	t.pos[id.Value] = id.Pos
	t.names = append(t.names, id.Value)
}

// split reads a step that halves a chain. `$point` is the point behind the link in question.
func (r *reader) split(s *section, v *Step, t *tree) {
	v.Split = s.text("split")
	outer := s.scope
	s.scope = append(append([]Param{}, outer...), Param{Name: "point", Kind: "point", Pos: v.Pos})
	v.Check = s.text("check")
	r.wantRef("check", v.Check, s.scope)
	v.Good, v.Bad = s.text("good"), s.text("bad")
	if n := s.Node("past"); n != nil {
		v.Past = r.branch(s.sub(n, `"past"`), t, false)
	}
	v.Branches = r.branches(s, t, s.OptList("branches"))
	s.scope = outer
}

// exits reads where each exit of a routine leads.
func (r *reader) exits(s *section, v *Step, t *tree) {
	m, there := s.OptSub("exits")
	if !there {
		return
	}
	v.Exits = map[string]*Branch{}
	for _, e := range m.Entries() {
		b := r.branch(s.sub(e.Value, "an exit"), t, false)
		b.Pos = e.Key.Pos
		v.Exits[e.Key.Value] = b
	}
}
