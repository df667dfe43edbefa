package rehearse

import (
	"maps"
	"slices"
	"sync"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// chunk is how many faults a worker takes at once: enough to make what it
// learns of the ways worth while, few enough to keep all workers busy.
const chunk = 24

// piece is a stretch of the faults of one plant.
type piece struct {
	bench    *bench
	from, to int
	cases    [][]*Case // of each pass of the plant
	noTree   []NoTree
	silent   []*fault // faults without a sign
	opposed  opposed
}

// rehearsal is one run on its way.
type rehearsal struct {
	set          *trees.Set
	jurisdiction *trees.Jurisdiction
	o            Options
	lock         sync.Mutex // of what follows, and of what is left of each plant
	walked       int        // faults
	total        int
}

// walk walks every plant. Which worker walks what changes nothing: each case has
// its own place and its own random numbers. What was learnt of a plant is given
// up as soon as the plant is through.
func (r *rehearsal) walk(benches []*bench) {
	for _, b := range benches {
		b.cut()
		r.total += len(b.faults)
	}
	r.o.Progress(0, r.total)
	pieces := newRoster(benches, workers())
	together(workers(), func(_, worker int) {
		for p := pieces.next(worker); p != nil; p = pieces.next(worker) {
			r.piece(p, worker)
		}
	})
	r.o.Progress(r.total, r.total)
}

// piece walks one piece, and finishes its plant if it was the last of it.
func (r *rehearsal) piece(p *piece, worker int) {
	b := p.bench
	if b.crews[worker] == nil {
		b.crews[worker] = newCrew(r, b)
	}
	for _, f := range b.faults[p.from:p.to] {
		b.crews[worker].fault(f, r.o, p)
	}
	if r.through(p) {
		for i, pass := range b.passes {
			pass.finish(r, i)
		}
		b.proofs = r.repaired(b)
		b.taken = map[strict.Pos]bool{}
		for _, c := range b.crews {
			if c != nil {
				maps.Copy(b.taken, c.reached.branches)
			}
		}
		b.crews = nil
	}
}

// cut makes the pieces of a plant.
func (b *bench) cut() {
	for from := 0; from < len(b.faults); from += chunk {
		b.pieces = append(b.pieces, &piece{bench: b, from: from, to: min(from+chunk, len(b.faults)), cases: make([][]*Case, len(b.passes))})
	}
	b.left, b.crews = len(b.pieces), make([]*crew, workers())
}

// through notes that a piece is walked, and says whether it was the last of its plant.
func (r *rehearsal) through(p *piece) bool {
	r.lock.Lock()
	defer r.lock.Unlock()
	r.o.Progress(r.walked, r.total)
	r.walked += p.to - p.from
	p.bench.left--
	return p.bench.left == 0
}

// finish judges what was done in a pass and proves the groups.
func (p *pass) finish(r *rehearsal, i int) {
	for _, c := range p.bench.crews {
		if c != nil {
			c.walkers[i].track.judge(p.bench.check, p.bench.cause)
		}
	}
	var cases []*Case
	for _, q := range p.bench.pieces {
		cases = append(cases, q.cases[i]...)
	}
	if slices.ContainsFunc(cases, func(c *Case) bool { return c.Verdict == Grouped }) {
		proveGroups(newMatrix(r.set, p.bench, p.bench.walker(p.person).ground, held(r.o.Kit, p.person)), cases)
	}
	for _, c := range cases {
		if why := c.node.unsafe(); why != "" {
			c.Verdict, c.Why = Unsafe, why
		}
	}
	followPasses(cases)
}

// walker is one who walked the plant as that person, and knows its ways; nil if
// nobody did.
func (b *bench) walker(p Person) *walker {
	for _, c := range b.crews {
		if c == nil {
			continue
		}
		for _, w := range c.walkers {
			if w.person.Name == p.Name {
				return w
			}
		}
	}
	return nil
}
