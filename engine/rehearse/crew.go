package rehearse

import (
	"faultwalk/engine/plant"
	"faultwalk/engine/walk"
	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// crew is one worker on one plant: the plant as it simulates it, and a walker
// for each pass.
type crew struct {
	host    *host
	walkers []*walker
	asker   *walker // the engineer, who takes readings of no walk
	reached reached // by draws, whose steps are not kept
}

func newCrew(r *rehearsal, b *bench) *crew {
	c := &crew{host: &host{bench: b}, reached: reached{branches: map[strict.Pos]bool{}}}
	judge := newJudge(r.set, r.jurisdiction, b.plant)
	for _, p := range b.passes {
		c.walkers = append(c.walkers, newWalker(r, c.host, p, judge))
	}
	c.asker = newAsker(r, c.host, c.walkers, judge)
	return c
}

// newAsker is the engineer on a plant; where one of the walkers is that too, the
// ways it has learnt serve both.
func newAsker(r *rehearsal, h *host, walkers []*walker, j *judge) *walker {
	w := newWalker(r, h, &pass{h.bench, Engineer(r.o.Kit), ""}, j)
	for _, other := range walkers {
		if other.person.Name == w.person.Name {
			w.ground, w.options = other.ground, other.options
		}
	}
	return w
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
			if !o.Sweep {
				c.rivals(f, told, o.Seed, &p.opposed)
			}
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
			if w.draw > 0 {
				c.reached.hops(w.hops)
			}
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
	second, why := w.second(e)
	c := &Case{Plant: w.bench.plant.ID, Symptom: t.sign, Fault: f.id, Words: f.words, Person: w.person.Name, Forgotten: w.forgotten,
		Draw: w.draw, Shadowed: t.shadowed, Weight: f.weight, Verdict: w.verdict(f, e), End: endWords(e), Why: e.why, Minutes: w.minutes, Moved: w.moved,
		Halts: w.halts, fault: f, end: e, node: w.node, amiss: amiss, second: second, secondWhy: why}
	if second == Against && c.Verdict == Exact {
		c.Verdict, c.Why = Wrong, why
	}
	if len(w.unsafe) > 0 {
		c.Verdict, c.Why = Unsafe, w.unsafe[0]
	}
	if o.keeps(c) {
		c.hops = w.hops
	}
	return c
}
