package prove

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Partition knows which branches are true in every part of the readings' ranges. It is made by [Prover.Table], is
// shared between equal sets, and is never changed.
type Partition struct {
	Set Set

	axes      []axis
	facts     []named
	truth     []uint64 // a bit for each branch whose condition is true; facts vary slowest, the last reading fastest
	undecided uint64   // branches the proof cannot decide
	formulas  []*formula
	runs      int
}

// Runs is how often a condition was run to make the proof: what it took.
func (p *Partition) Runs() int { return p.runs }

type proved struct {
	partition *Partition
	undecided []Undecided
	err       error
}

// Table proves the branches of a set. Undecided conditions come with their reasons and need a final else. The error
// is of type [Errors]: conditions that do not compile, or a set that is not one.
func (p *Prover) Table(s Set) (*Partition, []Undecided, error) {
	key := s.key()
	done, ok := p.partitions[key]
	if !ok {
		done.partition, done.undecided, done.err = p.table(s)
		p.partitions[key] = done
	}
	return done.partition, done.undecided, done.err
}

// key tells sets apart by all their values.
func (s Set) key() string {
	var b strings.Builder
	v := s.Vocabulary()
	b.WriteString(v.key())
	write := func(x float64) { b.WriteString(strconv.FormatUint(math.Float64bits(x), 36) + ",") }
	for _, name := range v.Constants {
		write(s.Constants[name])
	}
	for _, variable := range s.Variables {
		write(variable.Min)
		write(variable.Max)
		b.WriteString(strconv.Quote(variable.Unit))
		for _, band := range variable.Bands {
			write(band.To)
			b.WriteString(strconv.FormatBool(band.Including))
		}
	}
	for _, branch := range s.Branches {
		b.WriteString(strconv.Quote(branch.If) + strconv.FormatBool(branch.Else))
	}
	b.WriteString(strconv.FormatBool(s.FirstTrue))
	return b.String()
}

func (p *Prover) table(s Set) (*Partition, []Undecided, error) {
	if errs := s.validate(); errs != nil {
		return nil, nil, errs
	}
	w := &work{prover: p, set: s, vocabulary: s.Vocabulary(), cuts: make([][]float64, len(s.Variables))}
	w.key = w.vocabulary.key()
	w.compile()
	if w.errors != nil {
		return nil, nil, w.errors
	}
	if err := w.grid(); err != nil {
		return nil, nil, err
	}
	return &w.partition, w.undecided, nil
}

// work is one set on its way to a partition.
type work struct {
	prover     *Prover
	set        Set
	vocabulary Vocabulary
	key        string
	conditions []*Condition  // nil for else
	cuts       [][]float64   // thresholds of each reading
	own        [][][]float64 // the same of each condition by itself
	partition  Partition
	undecided  []Undecided
	errors     Errors
}

func (w *work) compile() {
	w.partition = Partition{Set: w.set}
	for i, b := range w.set.Branches {
		var c *Condition
		if !b.Else {
			var err error
			c, err = w.prover.compile(b.If, w.vocabulary, w.key)
			w.addErrors(i, err)
		}
		w.conditions = append(w.conditions, c)
		w.own = append(w.own, nil)
		if c == nil {
			w.partition.formulas = append(w.partition.formulas, nil)
			continue
		}
		w.partition.formulas = append(w.partition.formulas, c.formula)
		before := slices.Clone(w.cuts)
		for _, u := range w.cut(c) {
			w.leave(i, u)
		}
		for k, all := range w.cuts {
			w.own[i] = append(w.own[i], slices.Clone(all[len(before[k]):]))
		}
	}
}

// leave marks a branch as one the proof cannot decide.
func (w *work) leave(branch int, u Undecided) {
	u.Branch = branch
	w.undecided = append(w.undecided, u)
	w.partition.undecided |= 1 << branch
}

func (w *work) addErrors(branch int, err error) {
	var errs Errors
	if errors.As(err, &errs) {
		for _, e := range errs {
			e.Branch = branch
			w.errors = append(w.errors, e)
		}
	}
}

// cut collects the thresholds of a condition, and the reasons why some are not to be had.
func (w *work) cut(c *Condition) []Undecided {
	undecided := c.Undecided()
	c.formula.each(func(f *formula) {
		switch {
		case f.kind == band:
			w.cuts[f.index] = append(w.cuts[f.index], w.set.Variables[f.index].edges(f.name)...)
		case f.kind == compare && f.reason == "" && f.reads != 0:
			if reason := w.cutComparison(f); reason != "" {
				undecided = append(undecided, c.undecided(f.at, reason))
			}
		}
	})
	return undecided
}

func (w *work) cutComparison(f *formula) string {
	index, _ := f.reads.single()
	side, limit, operator := f.left, f.right, f.operator
	if side.closed() {
		side, limit, operator = limit, side, mirrored[operator]
	}
	v := w.set.Variables[index]
	domain := stretch{v.Min, min(v.Max, math.MaxFloat64)}
	at, reason := thresholds(side.fold(w.set.Constants), operator, limit.fold(w.set.Constants).value, domain)
	w.cuts[index] = append(w.cuts[index], at...)
	return reason
}

// mirrored is the comparison with its sides exchanged.
var mirrored = map[string]string{"<": ">", "<=": ">=", ">": "<", ">=": "<=", "==": "==", "!=": "!="}
