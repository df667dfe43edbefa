package trees

import (
	"maps"
	"slices"
	"strings"

	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// Bind puts a symptom's tree onto a plant: references are filled in, routines
// and splits expanded, steps the plant lacks replaced by their `otherwise`.
// Only what can be reached from the start is bound. A nil graph without
// problems means the tree does not serve this plant.
func (s *Set) Bind(symptom string, plant *Plant) (*Graph, strict.Problems) {
	s, problems := s.Whole()
	if len(problems) > 0 {
		return nil, problems
	}
	if s.Symptoms[symptom] == nil {
		panic("trees: Bind of an unknown symptom " + symptom)
	}
	return s.bind(symptom, plant, newCommon())
}

// BindAll puts every tree that serves a plant onto it, by symptom: what they have
// in common is bound once. Nothing is given where a tree has a problem.
func (s *Set) BindAll(plant *Plant) (map[string]*Graph, strict.Problems) {
	s, problems := s.Whole()
	if len(problems) > 0 {
		return nil, problems
	}
	common, all := newCommon(), map[string]*Graph{}
	for _, symptom := range slices.Sorted(maps.Keys(s.Symptoms)) {
		g, problems := s.bind(symptom, plant, common)
		if len(problems) > 0 {
			return nil, problems
		}
		if g != nil {
			all[symptom] = g
		}
	}
	return all, nil
}

func (s *Set) bind(symptom string, plant *Plant, common *common) (*Graph, strict.Problems) {
	sym := s.Symptoms[symptom]
	b := newBinder(s, sym, plant, common)
	if !b.holds(sym.Plants, nil) {
		return nil, b.problems
	}
	top := &scope{prefix: symptom, steps: b.named("symptom", symptom, sym.Steps), group: symptom}
	b.graph.Start = b.enter(top, sym.Start, sym.Pos)
	if sym.Cleared.Value != "" {
		b.graph.Cleared = b.check(sym.Cleared, nil, nil)
	}
	if len(b.problems) > 0 {
		return nil, b.problems.Sorted()
	}
	return b.graph, nil
}

// BindCheck puts one check onto a plant by its instance text: "driven at
// limit-out calling hot-water". What is wrong with it is reported at no place of
// a file, as nobody wrote it in one.
func (s *Set) BindCheck(id string, plant *Plant) (*BoundCheck, strict.Problems) {
	s, problems := s.Whole()
	if len(problems) > 0 {
		return nil, problems
	}
	b := newBinder(s, &Symptom{}, plant, newCommon())
	ref, err := ParseRef(id)
	c := s.Checks[ref.Name]
	switch {
	case err != nil:
		b.problem(strict.Pos{}, "%s", err)
	case c == nil:
		b.problem(strict.Pos{}, "there is no check %q%s", clip(ref.Name), spelling.DidYouMean(ref.Name, keys(s.Checks)))
	default:
		if a, ok := b.args(ref, c.Of, strict.Pos{}); ok {
			return b.bindCheck(ref, c, a, strict.Pos{}), b.problems
		}
	}
	return nil, b.problems
}

// enter binds the step of that name once and says where it really begins.
func (b *binder) enter(sc *scope, name string, pos strict.Pos) Target {
	st := sc.steps[name]
	switch {
	case b.full:
		return Target{}
	case st == nil:
		b.problem(pos, "no step %q here", name)
		return Target{}
	case len(b.entries) == maxEntries:
		b.overfull(pos, "bound, the tree has more than %d steps; expected at most that", maxEntries)
		return Target{}
	}
	b.graph.Visited[st] = true
	path := sc.prefix + "/" + name
	if e, seen := b.entries[path]; seen {
		if e == nil {
			b.problem(pos, "step %q leads back to itself: a loop; a tree only goes on", name)
			return Target{}
		}
		return *e
	}
	b.entries[path] = nil
	t := b.begin(sc, st, path)
	b.entries[path] = &t
	return t
}

func (b *binder) begin(sc *scope, st *Step, path string) Target {
	if !b.holds(st.If, sc) {
		if st.Otherwise.Value == "" {
			b.problem(st.Pos, "step %q is not on this plant and has no otherwise; say where it leads instead", st.ID)
			return Target{}
		}
		return b.enter(sc, st.Otherwise.Value, st.Otherwise.Pos)
	}
	b.graph.Held[st] = true
	switch {
	case st.Routine.Value != "":
		return b.routine(sc, st, path)
	case st.Split.Value != "":
		return b.split(sc, st, path)
	}
	return b.step(sc, st, path)
}

func (b *binder) step(sc *scope, st *Step, path string) Target {
	check := b.check(st.Check, sc.params, sc.args)
	bound := &Bound{Path: path, Pos: st.Pos, Check: check, Why: sc.prose(b, st.Why), Group: sc.group}
	b.add(bound)
	b.stops(bound)
	for _, br := range st.Branches {
		bound.Branches = append(bound.Branches, b.branch(sc, br))
	}
	b.aside(sc, st, bound)
	return Target{Go: path}
}

// aside binds the two ways out of a step that are no reading.
func (b *binder) aside(sc *scope, st *Step, bound *Bound) {
	if st.Otherwise.Value != "" {
		bound.Otherwise = b.enter(sc, st.Otherwise.Value, st.Otherwise.Pos)
	}
	if st.Dead.Value != "" {
		bound.Dead = b.enter(sc, st.Dead.Value, st.Dead.Pos).Go
	}
}

func (b *binder) add(bound *Bound) {
	b.graph.Steps[bound.Path] = bound
	b.graph.Order = append(b.graph.Order, bound.Path)
}

// stops puts the rows that end a job anywhere before a step's own branches.
func (b *binder) stops(bound *Bound) {
	if bound.Check == nil || len(bound.Check.Probes) < 2 {
		return
	}
	for _, s := range b.stopsOf(bound.Check) {
		bound.Branches = append(bound.Branches, &BoundBranch{Pos: s.Pos, If: s.If, Stop: s, Meaning: s.Words,
			To: Target{Refer: b.set.Referrals[s.Refer]}})
	}
}

// stopsOf lists the stops that a check takes all the readings of, found once.
func (b *binder) stopsOf(c *BoundCheck) []*Stop {
	known, done := b.stopping[c.Check]
	if done {
		return known
	}
	for _, s := range b.set.Stops {
		if c.takes(s.If.Value) {
			known = append(known, s)
		}
	}
	b.stopping[c.Check] = known
	return known
}

// takes says whether every reading a condition names is taken by the check.
func (c *BoundCheck) takes(condition string) bool {
	for _, name := range []string{"ln", "le", "ne"} {
		if !namesWord(condition, name) {
			continue
		}
		found := false
		for _, p := range c.Probes {
			found = found || p.As == name
		}
		if !found {
			return false
		}
	}
	return true
}

func namesWord(text, word string) bool {
	for _, f := range strings.FieldsFunc(text, func(r rune) bool {
		return !(r == '-' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z')
	}) {
		if f == word {
			return true
		}
	}
	return false
}

func (b *binder) branch(sc *scope, br *Branch) *BoundBranch {
	out := &BoundBranch{Pos: br.Pos, If: br.If, Else: br.Else, Untaken: br.Untaken, Meaning: sc.prose(b, br.Meaning)}
	for _, a := range br.Answer {
		out.Answers = append(out.Answers, a.Value)
	}
	out.To = b.target(sc, br, out)
	return out
}

func (b *binder) target(sc *scope, br *Branch, out *BoundBranch) Target {
	switch {
	case br.Go.Value != "":
		return b.enter(sc, br.Go.Value, br.Go.Pos)
	case len(br.Causes) > 0:
		var t Target
		for _, c := range br.Causes {
			if bc := b.cause(c, sc.params, sc.args, true); bc != nil {
				t.Causes = append(t.Causes, bc)
			}
		}
		return t
	case br.Refer.Value != "":
		if r := b.set.Referrals[br.Refer.Value]; r != nil {
			return Target{Refer: r}
		}
		b.problem(br.Refer.Pos, "unknown referral %q", br.Refer.Value)
	case br.Pass.Value != "":
		if b.set.Symptoms[br.Pass.Value] == nil {
			b.problem(br.Pass.Pos, "unknown symptom %q", br.Pass.Value)
		}
		return Target{Pass: br.Pass.Value}
	case br.Exit.Value != "":
		return b.exit(sc, br, out)
	}
	return Target{}
}

// exit leaves a routine by the branch its user gave for that exit.
func (b *binder) exit(sc *scope, br *Branch, out *BoundBranch) Target {
	user := sc.exits[br.Exit.Value]
	if user == nil {
		b.problem(br.Exit.Pos, "exit %q is not one the routine declares", br.Exit.Value)
		return Target{}
	}
	if m := sc.outer.prose(b, user.Meaning); m != "" {
		out.Meaning = strings.TrimPrefix(out.Meaning+"; "+m, "; ")
	}
	return b.target(sc.outer, user, out)
}

func (b *binder) routine(sc *scope, st *Step, path string) Target {
	ref, ok := b.ref(st.Routine, sc.params, sc.args)
	if !ok {
		return Target{}
	}
	r := b.set.Routines[ref.Name]
	if r == nil {
		b.problem(st.Routine.Pos, "unknown routine %q", ref.Name)
		return Target{}
	}
	args, ok := b.args(ref, r.Of, st.Routine.Pos)
	if !ok {
		return Target{}
	}
	for _, e := range r.Exits {
		if st.Exits[e] == nil {
			b.problem(st.Pos, "routine %s may leave by %q, which this step does not handle; add it under exits", r.ID, e)
		}
	}
	if sc.deep == maxUseDeep {
		b.overfull(st.Routine.Pos, "routines are used inside one another more than %d deep; expected at most that", maxUseDeep)
		return Target{}
	}
	inner := &scope{prefix: path, steps: b.named("routine", r.ID, r.Steps), params: r.Of, args: args, exits: st.Exits, outer: sc, group: path, deep: sc.deep + 1}
	return b.enter(inner, r.Start, st.Pos)
}
