package vet

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/prove"
)

// proof is what is known of one set of branches in one situation.
type proof struct {
	part      *prove.Partition // kept until what is asked of it is answered
	findings  []prove.Finding
	undecided []prove.Undecided
	errors    prove.Errors
	alive     uint64 // branches that some reading leads to, or may
	needless  string // what an else owns although every condition is decided
	overloads []overload
}

// maxFindings of one step: one that is wrong everywhere is not made clearer by
// its twentieth gap.
const maxFindings = 20

// overload is an OL that lies in several branches: on a meter that ends at Top.
type overload struct {
	mode     string
	top      float64
	branches []int
}

// ready gives the readings of a check with their bands in a situation, without
// branches.
func (v *vetting) ready(c *trees.BoundCheck, s situation) (prove.Set, error) {
	key := v.readyKey(c, s)
	if set, known := v.readied[key]; known {
		return set, nil
	}
	set, err := v.set.Holding(c, "true", s.Situation)
	if err != nil {
		return set, err
	}
	set.Branches = nil
	v.readied[key] = set
	return set, nil
}

func (v *vetting) readyKey(c *trees.BoundCheck, s situation) string {
	var b strings.Builder
	b.WriteString(s.Jurisdiction.ID + "|" + c.Check.Scale + "|" + string(c.Quantity))
	for _, p := range c.Probes {
		b.WriteString("|" + p.As + "|" + s.Modes[p.As])
		if v.set.Scales[c.Check.Scale].NamesLevels() {
			off, on := p.Level(s.Modes[p.As])
			fmt.Fprintf(&b, "|%g|%g", off, on)
		}
	}
	if e := s.Expected; e != nil {
		for _, x := range []float64{e.Low, e.Nominal, e.High} {
			b.WriteString("|" + strconv.FormatFloat(x, 'g', -1, 64))
		}
	}
	return b.String()
}

// prove proves branches over the readings of a check, once for each set of
// them. First says that the first true branch wins.
func (v *vetting) prove(c *trees.BoundCheck, s situation, branches []prove.Branch, first bool) (*proof, error) {
	set, err := v.ready(c, s)
	if err != nil {
		return nil, err
	}
	key := proofKey(v.readyKey(c, s), s.classes, branches, first)
	if known := v.proofs[key]; known != nil {
		return known, nil
	}
	if v.work > v.most {
		return nil, errTooMuch
	}
	set.Branches, set.FirstTrue = branches, first
	r := v.table(set)
	if r.part != nil {
		r.overloads = v.overloads(c, s.classes, r.part)
		r.part = nil
	}
	v.proofs[key] = r
	return r, nil
}

var errTooMuch = errors.New("all the proofs together are more work than is done here: this one and those after it were left out")

func proofKey(ready string, classes [][]string, branches []prove.Branch, first bool) string {
	var b strings.Builder
	b.WriteString(ready)
	fmt.Fprint(&b, classes, first)
	for _, br := range branches {
		b.WriteString("\n" + br.If)
	}
	return b.String()
}

// table makes one proof. Its prover is let go now and then: hostile trees
// would fill the memory with what it remembers.
func (v *vetting) table(set prove.Set) *proof {
	if v.tables++; v.tables%maxTables == 0 {
		v.prover = prove.New()
	}
	part, undecided, err := v.prover.Table(set)
	v.work += compileWork * len(set.Branches)
	if err != nil {
		r := &proof{}
		errors.As(err, &r.errors)
		return r
	}
	v.work += part.Runs()
	r := &proof{part: part, undecided: undecided, findings: part.Findings(), alive: 1<<len(set.Branches) - 1}
	for _, f := range r.findings {
		if f.Kind == prove.Dead || f.Kind == prove.IdleElse {
			r.alive &^= 1 << f.Branches[0]
		}
	}
	r.findings = r.findings[:min(len(r.findings), maxFindings)]
	if v.found.full() {
		r.findings = nil // no more is reported, and many would fill the memory
	}
	if part.ElseNeedless() && len(set.Branches) > 1 {
		r.needless = owned(part)
	}
	return r
}

// owned says in words which readings the last branch of a single reading owns.
func owned(part *prove.Partition) string {
	var words []string
	for _, r := range part.Owned(len(part.Set.Branches)-1, 0) {
		words = append(words, part.Set.Variables[0].Describe(r))
	}
	return strings.Join(words, "; ")
}

// overloads finds the meters whose OL, everything from the top of their
// largest range, lies in more than one branch; the meter that ends lowest first.
func (v *vetting) overloads(c *trees.BoundCheck, classes [][]string, part *prove.Partition) []overload {
	if len(c.Probes) != 1 || !math.IsInf(c.Quantity.Domain().Hi, 1) {
		return nil
	}
	var out []overload
	for _, mode := range classes[0] {
		for _, i := range v.kit.Instruments {
			spec, ok := i.Spec(measurements.Mode(mode), c.Quantity)
			if !ok {
				continue
			}
			wide := spec.Widen(measurements.Reading{Quantity: c.Quantity, Open: true})
			if touched := part.Judge([]prove.Interval{trees.Within(wide)}); len(touched) > 1 {
				out = append(out, overload{mode, wide.Lo, touched})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b overload) int { return cmp.Compare(a.top, b.top) })
	return out
}
