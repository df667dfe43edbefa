package rehearse

import (
	"hash/fnv"
	"math/rand/v2"
	"slices"
	"sync"

	"faultwalk/engine/walk"
	"faultwalk/trees"
)

// chunk is how many faults a worker takes at once: enough to make what it
// learns of the ways worth while, few enough to keep all workers busy.
const chunk = 24

// piece is a stretch of the faults of one pass.
type piece struct {
	pass     *pass
	from, to int
	out      outcome
}

// outcome is what walking a piece gave.
type outcome struct {
	cases   []*Case
	noTree  []NoTree
	silent  []*fault // faults without a sign
	walkers *walker
}

// walkAll walks every pass. Which worker walks what changes nothing: each case
// has its own place and its own random numbers.
func walkAll(set *trees.Set, j *trees.Jurisdiction, o Options, passes []*pass) []*piece {
	var pieces []*piece
	total := 0
	for _, p := range passes {
		for from := 0; from < len(p.bench.faults); from += chunk {
			pieces = append(pieces, &piece{pass: p, from: from, to: min(from+chunk, len(p.bench.faults))})
		}
		total += len(p.bench.faults)
	}
	var telling sync.Mutex
	count := 0
	mine := make([]map[*pass]*walker, workers())
	together(len(pieces), func(worker, i int) {
		if mine[worker] == nil {
			mine[worker] = map[*pass]*walker{}
		}
		p := pieces[i]
		w := mine[worker][p.pass]
		if w == nil {
			w = newWalker(set, j, o, p.pass)
			mine[worker][p.pass] = w
		}
		p.out.walkers = w
		for _, f := range p.pass.bench.faults[p.from:p.to] {
			w.fault(f, o, &p.out)
		}
		telling.Lock()
		defer telling.Unlock()
		o.Progress(count, total)
		count += p.to - p.from
	})
	finish(j, o, passes, pieces, mine)
	o.Progress(total, total)
	return pieces
}

// finish judges what was done and proves the groups.
func finish(j *trees.Jurisdiction, o Options, passes []*pass, pieces []*piece, mine []map[*pass]*walker) {
	together(len(passes), func(_, i int) {
		p := passes[i]
		for _, walkers := range mine {
			if w := walkers[p]; w != nil {
				w.track.judge(p.bench.check, p.bench.cause)
			}
		}
		var cases []*Case
		for _, q := range pieces {
			if q.pass == p {
				cases = append(cases, q.out.cases...)
			}
		}
		if slices.ContainsFunc(cases, func(c *Case) bool { return c.Verdict == Grouped }) {
			proveGroups(newMatrix(p.bench, p.context(j, o.Kit), held(o.Kit, p.person)), cases)
		}
		for _, c := range cases {
			if why := c.node.unsafe(); why != "" {
				c.Verdict, c.Why = Unsafe, why
			}
		}
	})
}

func newWalker(set *trees.Set, j *trees.Jurisdiction, o Options, p *pass) *walker {
	return &walker{bench: p.bench, person: p.person, kit: held(o.Kit, p.person), ground: newGround(p.context(j, o.Kit)),
		judge: newJudge(set, j, p.bench.plant), track: newTrack(p.bench.plant, p.person.Hands), forgotten: p.forgotten,
		options: map[string][][]walk.Option{}}
}

// fault walks every tree whose sign a fault shows, nominal and with every draw.
func (w *walker) fault(f *fault, o Options, out *outcome) {
	for draw := range o.Noise + 1 {
		w.put(f, o.Seed, draw)
		told := w.bench.told(w.sub)
		if len(told) == 0 && draw == 0 {
			out.silent = append(out.silent, f)
		}
		for _, t := range told {
			if w.changed {
				w.put(f, o.Seed, draw)
			}
			if t.graph != nil {
				out.cases = append(out.cases, w.one(f, t, draw, o))
			} else if draw == 0 {
				out.noTree = append(out.noTree, NoTree{w.bench.plant.ID, f.id, t.sign})
			}
		}
	}
}

// put puts a fault into the plant.
func (w *walker) put(f *fault, seed uint64, draw int) {
	w.noise, w.changed = nil, false
	var with *uint64
	if draw > 0 {
		own := drawn(seed, w.bench.plant.ID, f.id, draw)
		with, w.noise = &own, rand.New(rand.NewPCG(own, seed))
	}
	if w.sub == nil {
		w.sub = w.bench.model.subject(f, with)
	} else {
		w.sub.be(f, with)
	}
	w.known, w.proved = map[string]answered{}, map[string]found{}
}

// drawn is the seed of one draw: its own for every fault on every plant.
func drawn(seed uint64, plant, fault string, draw int) uint64 {
	h := fnv.New64a()
	h.Write([]byte(plant + "\n" + fault))
	return h.Sum64() ^ (seed*0x9e3779b97f4a7c15 + uint64(draw)*0xbf58476d1ce4e5b9)
}

// one walks one tree.
func (w *walker) one(f *fault, t told, draw int, o Options) *Case {
	e := w.walk(t.graph)
	c := &Case{Plant: w.bench.plant.ID, Symptom: t.sign, Fault: f.id, Words: f.words, Person: w.person.Name, Forgotten: w.forgotten,
		Draw: draw, Weight: f.weight, Verdict: w.verdict(f, e), End: endWords(e), Why: e.why, Minutes: w.minutes, Moved: w.moved,
		Halts: w.halts, fault: f, end: e, node: w.node}
	if len(w.unsafe) > 0 {
		c.Verdict, c.Why = Unsafe, w.unsafe[0]
	}
	if o.Trace || draw == 0 || c.Verdict == Wrong || c.Verdict == Unsafe {
		c.hops = w.hops
	}
	return c
}
