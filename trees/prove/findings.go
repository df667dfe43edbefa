package prove

import (
	"fmt"
	"math"
	"math/bits"
	"slices"
	"strings"
)

// Kind is what is wrong with the branches of a step.
type Kind string

// What can be wrong. Branches are counted from 1 in words and from 0 in [Finding.Branches].
const (
	Uncovered Kind = "gap"       // readings that lead nowhere
	Overlap   Kind = "overlap"   // readings that lead two ways
	Dead      Kind = "dead"      // a branch no reading leads to
	IdleElse  Kind = "idle else" // an else with nothing left to own
	NoElse    Kind = "no else"   // an else is needed and is not there
)

// Finding is one thing wrong with the branches of a step.
type Finding struct {
	Kind     Kind
	Branches []int     // concerned, ascending
	Ranges   []Range   // of each variable; nil where the finding is not about certain readings
	Facts    []Fact    // that must be so, where it matters
	Witness  []float64 // one reading of each variable for which it is so
	Where    string    // the ranges and facts in words
	Example  string    // the witness in words: "ln = 210 V"
}

// String says in one line what is wrong.
func (f Finding) String() string {
	switch f.Kind {
	case Uncovered:
		return fmt.Sprintf("no branch owns %s; for example %s", f.Where, f.Example)
	case Overlap:
		return fmt.Sprintf("branches %s %s own %s; for example %s", counted(f.Branches), together(len(f.Branches)), f.Where, f.Example)
	case Dead:
		return fmt.Sprintf("no reading leads to branch %s", counted(f.Branches))
	case IdleElse:
		return fmt.Sprintf("the else (branch %s) owns nothing; the branches before it own every reading", counted(f.Branches))
	}
	return "the last branch must be else"
}

func together(n int) string {
	if n == 2 {
		return "both"
	}
	return "all"
}

func counted(branches []int) string {
	words := make([]string, len(branches))
	for i, b := range branches {
		words[i] = fmt.Sprint(b + 1)
	}
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// maxFindings of one kind and set of branches: a broken set is not made clearer by its hundredth gap.
const maxFindings = 50

// Findings gives everything wrong with the branches: gaps, overlaps where the first true branch does not win, dead
// branches, and an else that is missing or idle. Of overlaps only the largest sets of branches are given.
func (p *Partition) Findings() []Finding {
	found := p.gaps()
	if !p.Set.FirstTrue {
		found = append(found, p.overlaps()...)
	}
	found = append(found, p.dead()...)
	last := len(p.Set.Branches) - 1
	if !p.Set.Branches[last].Else && (p.Set.FirstTrue || p.undecided != 0) {
		found = append(found, Finding{Kind: NoElse, Branches: []int{last}})
	}
	return found
}

func (p *Partition) gaps() []Finding {
	var found []Finding
	if p.undecided != 0 {
		return nil
	}
	regions := p.regions(func(cell int) bool {
		_, none := p.winners(p.truth[cell], 0, 0)
		return none
	}, maxFindings)
	for _, r := range regions {
		found = append(found, p.finding(Uncovered, nil, r))
	}
	return found
}

func (p *Partition) overlaps() []Finding {
	sets := p.shared()
	var found []Finding
	for _, s := range sets {
		if slices.ContainsFunc(sets, func(other uint64) bool { return other != s && other&s == s }) {
			continue
		}
		for _, r := range p.regions(func(cell int) bool { return p.truth[cell] == s }, maxFindings-len(found)) {
			found = append(found, p.finding(Overlap, members(s), r))
		}
	}
	return found
}

// shared gives the sets of several branches that are true together somewhere, in the order of the readings.
func (p *Partition) shared() (sets []uint64) {
	seen := map[uint64]bool{}
	for _, t := range p.truth {
		if bits.OnesCount64(t) > 1 && !seen[t] && len(sets) < 4*maxFindings {
			seen[t] = true
			sets = append(sets, t)
		}
	}
	return sets
}

func members(set uint64) (branches []int) {
	for ; set != 0; set &= set - 1 {
		branches = append(branches, bits.TrailingZeros64(set))
	}
	return branches
}

func (p *Partition) dead() []Finding {
	reached := p.undecided
	for _, t := range p.truth {
		winners, _ := p.winners(t, 0, p.undecided)
		reached |= winners
	}
	var found []Finding
	for i, b := range p.Set.Branches {
		if reached&(1<<i) != 0 {
			continue
		}
		kind := Dead
		if b.Else {
			kind = IdleElse
		}
		found = append(found, Finding{Kind: kind, Branches: []int{i}})
	}
	return found
}

// finding puts a region into ranges and words.
func (p *Partition) finding(kind Kind, branches []int, r region) Finding {
	f := Finding{Kind: kind, Branches: branches}
	var where, example []string
	for i, a := range p.axes {
		d := len(p.facts) + i
		lo, hi := a.cells[r.from[d]], a.cells[r.to[d]]
		span := Range{lo.Lo, hi.Hi, lo.LoIn, hi.HiIn}
		witness := span.example()
		f.Ranges = append(f.Ranges, span)
		f.Witness = append(f.Witness, witness)
		where = append(where, a.variable.Describe(span))
		example = append(example, a.variable.say(witness))
	}
	for d, n := range p.facts {
		if r.from[d] != r.to[d] {
			continue
		}
		v := p.Set.Variables[n.index].Name
		f.Facts = append(f.Facts, Fact{n.name, v, r.from[d] == 1})
		where = append(where, negated(r.from[d] == 0)+n.key)
		example = append(example, negated(r.from[d] == 0)+n.key)
	}
	f.Where, f.Example = strings.Join(where, " and "), strings.Join(example, " and ")
	return f
}

func negated(is bool) string {
	if is {
		return "not "
	}
	return ""
}

func (v Variable) say(x float64) string {
	if math.IsInf(x, 1) {
		return v.Name + " = OL"
	}
	return v.Name + " = " + v.number(x)
}

// ElseNeedless says whether a single reading has an else although every other condition is decided, so that its
// range could be written down.
func (p *Partition) ElseNeedless() bool {
	last := p.Set.Branches[len(p.Set.Branches)-1]
	return last.Else && !p.Set.FirstTrue && p.undecided == 0
}
