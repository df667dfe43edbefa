package rehearse

import (
	"slices"
	"sync"

	"faultwalk/engine/plant"
	"faultwalk/engine/walk"
	"faultwalk/trees"
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
}

// crew is one worker on one plant: the plant as it simulates it, and a walker
// for each pass.
type crew struct {
	host    *host
	walkers []*walker
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
		b.unproved = r.repaired(b)
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

func newCrew(r *rehearsal, b *bench) *crew {
	c := &crew{host: &host{bench: b}}
	judge := newJudge(r.set, r.jurisdiction, b.plant)
	for _, p := range b.passes {
		c.walkers = append(c.walkers, newWalker(r, c.host, p, judge))
	}
	return c
}

func newWalker(r *rehearsal, h *host, p *pass, j *judge) *walker {
	kit := r.o.Kit
	return &walker{host: h, person: p.person, kit: held(kit, p.person), ground: newGround(p.context(r.jurisdiction, kit)),
		judge: j, track: newTrack(h.bench.plant, p.person.Hands), forgotten: p.forgotten, calls: plant.CallSets(h.bench.plant), options: map[string][][]walk.Option{}}
}

// fault walks every tree whose sign a fault shows, nominal and with every draw,
// in every pass.
func (c *crew) fault(f *fault, o Options, p *piece) {
	draws := o.Noise
	for draw := 0; draw <= draws; draw++ {
		c.host.put(f, o.Seed, draw)
		var matter map[*trees.Sign]bool
		if draw > 0 {
			matter = p.bench.needed
		}
		told := p.bench.told(c.host.sub, matter)
		walked := c.tell(told, o, p)
		if draw == 0 {
			p.untold(f, told)
			if !walked {
				draws = (o.Noise + rare - 1) / rare
			}
		}
	}
}

// rare is the share of the draws, one in so many, that a fault gets which
// nominally shows no sign that has a tree: hardly one of its draws shows one.
const rare = 10

// tell walks the trees of the signs that are told, in every pass.
func (c *crew) tell(told []told, o Options, p *piece) (walked bool) {
	for _, t := range told {
		if t.graph == nil {
			continue
		}
		walked = true
		for i, w := range c.walkers {
			p.cases[i] = append(p.cases[i], w.one(t, o))
		}
	}
	return walked
}

// untold notes what a nominal fault shows that is no case.
func (p *piece) untold(f *fault, told []told) {
	if len(told) == 0 {
		p.silent = append(p.silent, f)
	}
	for _, t := range told {
		if t.graph == nil { // then nothing overshadows it
			p.noTree = append(p.noTree, NoTree{p.bench.plant.ID, f.id, t.sign})
		}
	}
}

// one walks one tree.
func (w *walker) one(t told, o Options) *Case {
	if w.changed {
		w.put(w.fault, o.Seed, w.draw)
	}
	w.noise = w.errors(t.sign)
	e, f := w.walk(t.graph), w.fault
	amiss := w.amiss()
	against := w.second(e)
	c := &Case{Plant: w.bench.plant.ID, Symptom: t.sign, Fault: f.id, Words: f.words, Person: w.person.Name, Forgotten: w.forgotten,
		Draw: w.draw, Shadowed: t.shadowed, Weight: f.weight, Verdict: w.verdict(f, e), End: endWords(e), Why: e.why, Minutes: w.minutes, Moved: w.moved,
		Halts: w.halts, fault: f, end: e, node: w.node, amiss: amiss}
	if against != "" && c.Verdict == Exact {
		c.Verdict, c.Why = Wrong, against
	}
	if len(w.unsafe) > 0 {
		c.Verdict, c.Why = Unsafe, w.unsafe[0]
	}
	if o.keeps(c) {
		c.hops = w.hops
	}
	return c
}
