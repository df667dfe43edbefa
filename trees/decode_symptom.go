package trees

import (
	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// symptom reads a tree that starts from what somebody notices.
func (r *reader) symptom(s *section) {
	id := r.fileID(s, "symptom")
	keep := r.claim("symptom", id)
	v := r.symptomWords(s, id)
	v.Cleared = s.text("cleared")
	r.wantRef("check", v.Cleared, nil)
	v.Start, v.Steps = r.steps(s, nil)
	if keep {
		r.set.Symptoms[id.Value] = v
	}
}

// symptomWords reads what a symptom is chosen by.
func (r *reader) symptomWords(s *section, id strict.Text) *Symptom {
	v := &Symptom{ID: id.Value, Pos: id.Pos, Sign: s.prose("sign")}
	for _, t := range s.texts("words") {
		v.Words = append(v.Words, t.Value)
	}
	v.Plants = s.opt("plants")
	r.predicate(v.Plants)
	return v
}

// routine reads a part of a tree that several trees use.
func (r *reader) routine(s *section) {
	id := s.id("id")
	keep := r.claim("routine", id)
	v := &Routine{ID: id.Value, Pos: id.Pos, Of: s.params(ParamKinds)}
	for i, t := range s.OptWords("exits") {
		switch {
		case i >= maxItems:
			t.Problem("more than %d exits; expected at most that", maxItems)
		case !idWord.MatchString(t.Value):
			t.Problem("found the exit %q; expected a plain hyphenated word such as no-volts", clip(t.Value))
		case contains(v.Exits, t.Value):
			t.Problem("the exit %q comes twice", t.Value)
		default:
			v.Exits = append(v.Exits, t.Value)
		}
	}
	v.Start, v.Steps = r.steps(s, &v.Exits)
	if keep {
		r.set.Routines[id.Value] = v
	}
}

// tree is what the steps of one symptom or routine may lead to.
type tree struct {
	names []string
	pos   map[string]strict.Pos
	goes  []strict.Text
	exits *[]string // nil in a symptom
	used  map[string]bool
}

// steps reads the steps of a tree and checks where they lead within it.
func (r *reader) steps(s *section, exits *[]string) (start string, all []*Step) {
	t := &tree{pos: map[string]strict.Pos{}, exits: exits, used: map[string]bool{}}
	first := s.Text("start")
	t.goes = append(t.goes, first)
	for _, n := range s.List("steps") {
		all = append(all, r.step(s.sub(n, "a step"), t))
	}
	for _, target := range t.goes {
		if _, there := t.pos[target.Value]; !there && target.Value != "" {
			target.Problem("there is no step %q here%s", clip(target.Value), r.suggest(target.Value, these(t.names)))
		}
	}
	if exits != nil {
		for _, e := range *exits {
			if !t.used[e] {
				s.KeyProblem("exits", "no branch leads to the exit %q; expected one, or the exit left out", e)
			}
		}
	}
	return first.Value, all
}

// exit checks a way out of a routine.
func (t *tree) exit(to strict.Text) {
	switch {
	case to.Value == "":
	case t.exits == nil:
		to.Problem(`"exit" leaves a routine, and this is a symptom; expected go, cause, refer or pass`)
	case !contains(*t.exits, to.Value):
		to.Problem("the routine has no exit %q%s%s", clip(to.Value), listed(*t.exits), spelling.DidYouMean(to.Value, *t.exits))
	default:
		t.used[to.Value] = true
	}
}

func listed(known []string) string {
	if len(known) == 0 {
		return "; it declares none"
	}
	return "; expected one of " + spelling.Quoted(known)
}
