package rehearse

import (
	"slices"
	"sync"

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

// walkAll walks every pass. Which worker walks what changes nothing: each case
// has its own place and its own random numbers.
func walkAll(set *trees.Set, j *trees.Jurisdiction, o Options, benches []*bench) []*piece {
	var pieces []*piece
	total := 0
	for _, b := range benches {
		for from := 0; from < len(b.faults); from += chunk {
			pieces = append(pieces, &piece{bench: b, from: from, to: min(from+chunk, len(b.faults)), cases: make([][]*Case, len(b.passes))})
		}
		total += len(b.faults)
	}
	var telling sync.Mutex
	count := 0
	crews := make([]map[*bench]*crew, workers())
	together(len(pieces), func(worker, i int) {
		p := pieces[i]
		if crews[worker] == nil {
			crews[worker] = map[*bench]*crew{}
		}
		c := crews[worker][p.bench]
		if c == nil {
			c = newCrew(set, j, o, p.bench)
			crews[worker][p.bench] = c
		}
		for _, f := range p.bench.faults[p.from:p.to] {
			c.fault(f, o, p)
		}
		telling.Lock()
		defer telling.Unlock()
		o.Progress(count, total)
		count += p.to - p.from
	})
	finish(set, j, o, benches, pieces, crews)
	o.Progress(total, total)
	return pieces
}

// finish judges what was done and proves the groups.
func finish(set *trees.Set, j *trees.Jurisdiction, o Options, benches []*bench, pieces []*piece, crews []map[*bench]*crew) {
	var work []func()
	for _, b := range benches {
		for i, p := range b.passes {
			work = append(work, func() { p.finish(set, j, o, i, pieces, crews) })
		}
	}
	together(len(work), func(_, i int) { work[i]() })
}

func (p *pass) finish(set *trees.Set, j *trees.Jurisdiction, o Options, i int, pieces []*piece, crews []map[*bench]*crew) {
	for _, of := range crews {
		if c := of[p.bench]; c != nil {
			c.walkers[i].track.judge(p.bench.check, p.bench.cause)
		}
	}
	var cases []*Case
	for _, q := range pieces {
		if q.bench == p.bench {
			cases = append(cases, q.cases[i]...)
		}
	}
	if slices.ContainsFunc(cases, func(c *Case) bool { return c.Verdict == Grouped }) {
		proveGroups(newMatrix(set, p.bench, p.context(j, o.Kit), held(o.Kit, p.person)), cases)
	}
	for _, c := range cases {
		if why := c.node.unsafe(); why != "" {
			c.Verdict, c.Why = Unsafe, why
		}
	}
}

func newCrew(set *trees.Set, j *trees.Jurisdiction, o Options, b *bench) *crew {
	c := &crew{host: &host{bench: b}}
	judge := newJudge(set, j, b.plant)
	for _, p := range b.passes {
		c.walkers = append(c.walkers, &walker{host: c.host, person: p.person, kit: held(o.Kit, p.person), ground: newGround(p.context(j, o.Kit)),
			judge: judge, track: newTrack(b.plant, p.person.Hands), forgotten: p.forgotten, options: map[string][][]walk.Option{}})
	}
	return c
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
	c := &Case{Plant: w.bench.plant.ID, Symptom: t.sign, Fault: f.id, Words: f.words, Person: w.person.Name, Forgotten: w.forgotten,
		Draw: w.draw, Shadowed: t.shadowed, Weight: f.weight, Verdict: w.verdict(f, e), End: endWords(e), Why: e.why, Minutes: w.minutes, Moved: w.moved,
		Halts: w.halts, fault: f, end: e, node: w.node, measures: len(w.kit.Instruments) > 0}
	if len(w.unsafe) > 0 {
		c.Verdict, c.Why = Unsafe, w.unsafe[0]
	}
	if o.Trace || w.draw == 0 || c.Verdict == Wrong || c.Verdict == Unsafe {
		c.hops = w.hops
	}
	return c
}
