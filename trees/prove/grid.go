package prove

import (
	"fmt"
	"math"

	"github.com/expr-lang/expr/vm"
)

// grid runs every decided condition in every combination of cells of the readings it names.
func (w *work) grid() error {
	p := &w.partition
	programs := make([]*program, len(w.conditions))
	for i, c := range w.conditions {
		if c == nil || p.undecided&(1<<i) != 0 {
			continue
		}
		made, err := w.prover.program(c, w.vocabulary, w.key)
		if err != nil {
			return Errors{{Branch: i, Line: 1, Message: firstLine(err.Error())}}
		}
		programs[i] = made
		w.addFacts(made.facts)
	}
	size := 1
	for i, v := range w.set.Variables {
		p.axes = append(p.axes, newAxis(v, w.cuts[i]))
		size *= len(p.axes[i].cells)
	}
	if len(p.facts) > 6 || size<<len(p.facts) > maxCells {
		return Errors{{Branch: -1, Line: 1, Message: fmt.Sprintf("the branches cut the readings into more than %d parts; use fewer limits or facts", maxCells)}}
	}
	p.truth = make([]uint64, size<<len(p.facts))
	for i, made := range programs {
		if made != nil {
			w.run(i, made)
		}
	}
	return nil
}

func (w *work) addFacts(facts []named) {
	for _, f := range facts {
		if w.partition.fact(f.key) < 0 {
			w.partition.facts = append(w.partition.facts, f)
		}
	}
}

func (p *Partition) fact(key string) int {
	for i, f := range p.facts {
		if f.key == key {
			return i
		}
	}
	return -1
}

// sizes gives the number of cells in each dimension: two for a fact, false and true, then the readings.
func (p *Partition) sizes() []int {
	sizes := make([]int, 0, len(p.facts)+len(p.axes))
	for range p.facts {
		sizes = append(sizes, 2)
	}
	for _, a := range p.axes {
		sizes = append(sizes, len(a.cells))
	}
	return sizes
}

// runner runs one condition over the dimensions it names and spreads the outcome over the others.
type runner struct {
	partition *Partition
	program   *program
	machine   vm.VM
	env       map[string]any
	strips    [][]strip // of the dimensions the condition names; nil for the others
	in        []strip   // where it is run
	sizes     []int
	branch    int
	failure   string
}

func (w *work) run(branch int, made *program) {
	p := &w.partition
	r := &runner{partition: p, program: made, sizes: p.sizes(), branch: branch, env: make(map[string]any, len(w.set.Constants)+8)}
	for name, value := range w.set.Constants {
		r.env[name] = value
	}
	r.strips = make([][]strip, len(r.sizes))
	for _, f := range made.facts {
		r.strips[p.fact(f.key)] = []strip{{0, 0}, {1, 1}}
	}
	single, alone := made.reads.single()
	alone = alone && len(made.facts) == 0
	for i, a := range p.axes {
		switch d := len(p.facts) + i; {
		case alone && i == single:
			r.strips[d] = a.strips(w.cuts[i]) // every cell: it costs little
		case made.reads.has(i):
			r.strips[d] = a.strips(w.own[branch][i])
		}
	}
	r.in = make([]strip, len(r.sizes))
	r.dimension(0)
	if alone {
		r.confirm(single)
	}
	if r.failure != "" {
		w.leave(branch, Undecided{Line: 1, Reason: r.failure})
		for i := range p.truth {
			p.truth[i] &^= 1 << branch
		}
	}
}

// dimension goes through the strips of one dimension and, inside each, through the rest; a dimension the condition
// does not name is one strip. Where the condition holds, every cell of the strips it was run in is marked.
func (r *runner) dimension(d int) {
	switch {
	case d == len(r.sizes):
		if r.holds() {
			r.mark(0, 0)
		}
	case r.strips[d] == nil:
		r.in[d] = strip{0, r.sizes[d] - 1}
		r.dimension(d + 1)
	default:
		for _, s := range r.strips[d] {
			r.in[d] = s
			r.set(d, s.first)
			r.dimension(d + 1)
		}
	}
}

// mark notes that the condition holds in all cells of the strips it was run in.
func (r *runner) mark(d, offset int) {
	if d == len(r.sizes) {
		r.partition.truth[offset] |= 1 << r.branch
		return
	}
	for i := r.in[d].first; i <= r.in[d].last; i++ {
		r.mark(d+1, offset*r.sizes[d]+i)
	}
}

func (r *runner) set(d, i int) {
	p := r.partition
	if d < len(p.facts) {
		r.env[p.facts[d].key] = i == 1
		return
	}
	index := d - len(p.facts)
	c := p.axes[index].cells[i]
	r.setReading(index, c.at, c.boxed)
}

func (r *runner) setReading(index int, x float64, boxed any) {
	v := r.partition.axes[index].variable
	r.env[v.Name] = boxed
	for _, b := range r.program.bands {
		if b.index == index {
			r.env[b.key] = v.within(b.name, x)
		}
	}
}

// holds runs the condition at the readings that are set.
func (r *runner) holds() bool {
	r.partition.runs++
	out, err := r.machine.Run(r.program.code, r.env)
	if err != nil {
		r.failure = "the condition fails when it is run: " + firstLine(err.Error())
		return false
	}
	return out.(bool)
}

// confirm runs a condition on one reading at both ends of every open cell as well: it must be there what it is
// inside, or a threshold is missing.
func (r *runner) confirm(index int) {
	for _, c := range r.partition.axes[index].cells {
		r.setReading(index, c.at, c.boxed)
		inside := r.holds()
		lo, hi := c.ends()
		for _, x := range []float64{lo, hi} {
			if x == c.at {
				continue
			}
			r.setReading(index, x, x)
			if r.holds() != inside && r.failure == "" {
				r.failure = fmt.Sprintf("the condition changes near %v, where the proof expects no change", x)
			}
		}
	}
}

// ends gives the lowest and the highest reading of a cell.
func (c cell) ends() (lo, hi float64) {
	lo, hi = c.Lo, c.Hi
	if !c.LoIn {
		lo = math.Nextafter(lo, hi)
	}
	if !c.HiIn {
		hi = math.Nextafter(hi, lo)
	}
	return lo, hi
}
