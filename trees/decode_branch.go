package trees

import "faultwalk/trees/strict"

// branches reads where each kind of reading leads; `else` owns the rest, so it stands last.
func (r *reader) branches(s *section, t *tree, nodes []*strict.Node) []*Branch {
	var all []*Branch
	for i, n := range few(nodes) {
		b := r.branch(s.sub(n, "a branch"), t, true)
		if b.Else && i < len(nodes)-1 {
			n.Problem(`"else" owns what no other branch owns; expected it last`)
		}
		all = append(all, b)
	}
	return all
}

// branch reads one way on. Those of a routine's exits and of `past` have no condition.
func (r *reader) branch(s *section, t *tree, conditional bool) *Branch {
	b := &Branch{Pos: s.Pos}
	if conditional {
		r.condition(s, b)
	}
	b.Meaning = s.optProse("meaning")
	b.Untaken = s.optProse("untaken")
	if !s.Valid() {
		return b
	}
	switch s.Which("go", "cause", "refer", "pass", "exit") {
	case "go":
		b.Go = s.Text("go")
		t.goes = append(t.goes, b.Go)
	case "cause":
		b.Causes = s.oneOrMore("cause")
		for _, c := range b.Causes {
			r.wantRef("cause", c, s.scope)
		}
	case "refer":
		b.Refer = s.Text("refer")
		r.want("referral", b.Refer, s.scope)
	case "pass":
		b.Pass = s.Text("pass")
		r.want("symptom", b.Pass, s.scope)
	case "exit":
		b.Exit = s.Text("exit")
		t.exit(b.Exit)
	}
	s.Done()
	return b
}

func (r *reader) condition(s *section, b *Branch) {
	switch s.Which("if", "answer", "else") {
	case "if":
		b.If = s.opt("if")
	case "answer":
		b.Answer = s.oneOrMore("answer")
	case "else":
		b.Else = s.yes("else")
		if s.Has("else") && !b.Else {
			s.KeyProblem("else", `found "else" that is not true; expected "else: true", or another condition`)
		}
	}
}
