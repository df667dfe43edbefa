package trees

import "math"

// split turns a chain into steps that halve it. Where to measure next is the
// cheapest search tree over the links' weights: an interval programme, exact
// for equal check minutes (Gilbert and Moore, Bell System Technical Journal 38, 1959).
func (b *binder) split(sc *scope, st *Step, path string) Target {
	name := fill(st.Split.Value, sc.params, sc.args)
	ch := b.plant.Chain(name)
	if ch == nil || len(ch.Links) == 0 {
		b.problem(st.Split.Pos, "no chain %q on this plant", name)
		return Target{}
	}
	if len(ch.Links) > maxLinks {
		b.problem(st.Split.Pos, "the chain %q has %d links; expected at most %d to be halved", name, len(ch.Links), maxLinks)
		return Target{}
	}
	sp := &splitter{b: b, sc: sc, st: st, path: path, chain: ch}
	for _, l := range ch.Links {
		sp.weights = append(sp.weights, max(l.Weight, 0.01))
	}
	if st.Past != nil {
		past := b.branch(sc, st.Past)
		sp.past = past
		sp.weights = append(sp.weights, past.weight())
	}
	sp.search()
	return sp.build(0, len(sp.weights)).To
}

type splitter struct {
	b       *binder
	sc      *scope
	st      *Step
	path    string
	chain   *Chain
	past    *BoundBranch
	weights []float64
	at      map[[2]int]int
}

// weight is how likely a branch's causes are together; at least 1.
func (br *BoundBranch) weight() float64 {
	w := 0.0
	for _, c := range br.To.Causes {
		w += c.Cause.Weight
	}
	return max(w, 1)
}

// search fills at: for links i..j-1 still suspect, the point to measure.
func (sp *splitter) search() {
	n := len(sp.weights)
	cost := map[[2]int]float64{}
	sp.at = map[[2]int]int{}
	for span := 2; span <= n; span++ {
		for i := 0; i+span <= n; i++ {
			j, sum, best := i+span, 0.0, math.Inf(1)
			for _, w := range sp.weights[i:j] {
				sum += w
			}
			for m := i + 1; m < j; m++ {
				if c := cost[[2]int{i, m}] + cost[[2]int{m, j}]; c < best {
					best = c
					sp.at[[2]int{i, j}] = m
				}
			}
			cost[[2]int{i, j}] = sum + best
		}
	}
}

// build gives the branch for "the fault is in links i..j-1".
func (sp *splitter) build(i, j int) *BoundBranch {
	if j-i == 1 {
		return sp.leaf(i)
	}
	m := sp.at[[2]int{i, j}]
	point := sp.chain.Links[m-1].To
	params := append(append([]Param{}, sp.sc.params...), Param{Name: "point", Kind: "point", Pos: sp.st.Split.Pos})
	args := map[string]string{"point": point}
	for k, v := range sp.sc.args {
		args[k] = v
	}
	bound := &Bound{Path: sp.path + "/" + point, Pos: sp.st.Pos, Check: sp.b.check(sp.st.Check, params, args),
		Why: sp.sc.prose(sp.b, sp.st.Why), Group: sp.path, Chain: sp.chain.ID}
	sp.b.add(bound)
	sp.b.stops(bound)
	inner := *sp.sc
	inner.params, inner.args = params, args
	var last []*BoundBranch
	for _, br := range sp.st.Branches {
		bb := sp.b.branch(&inner, br)
		if br.Else {
			last = append(last, bb)
			continue
		}
		bound.Branches = append(bound.Branches, bb)
	}
	words := sp.b.plant.words(point)
	good, bad := sp.build(m, j), sp.build(i, m)
	bound.Branches = append(bound.Branches,
		&BoundBranch{Pos: sp.st.Pos, If: sp.st.Good, Meaning: "good as far as " + words + ": " + good.Meaning, To: good.To},
		&BoundBranch{Pos: sp.st.Pos, If: sp.st.Bad, Meaning: "not as far as " + words + ": " + bad.Meaning, To: bad.To})
	bound.Branches = append(bound.Branches, last...)
	sp.b.aside(sp.sc, sp.st, bound)
	return &BoundBranch{Meaning: "look on, half of what is left at a time", To: Target{Go: bound.Path}}
}

// leaf is the branch for one link left: what is wrong when that link fails.
func (sp *splitter) leaf(i int) *BoundBranch {
	if i == len(sp.chain.Links) {
		return sp.past
	}
	l := sp.chain.Links[i]
	br := &BoundBranch{Meaning: "the break is in " + l.Over.Words}
	text := sp.st.Split
	text.Value = l.Cause
	if c := sp.b.cause(text, nil, nil, true); c != nil {
		br.To.Causes = []*BoundCause{c}
	}
	return br
}
