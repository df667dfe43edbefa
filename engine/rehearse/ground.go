package rehearse

import (
	"fmt"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/plant"
	"faultwalk/engine/safety"
	"faultwalk/engine/walk"
	"faultwalk/trees"
)

// ground is what one pair of hands does on one plant: every state of the plant
// they bring about, and the acts from one to a check. Each is worked out once
// and serves every walk that comes through it.
type ground struct {
	ctx   safety.Context
	first *spot
	spots map[string]*spot
	aims  map[*trees.Bound]string    // covers that come off in the same dead period
	clean map[string][]journal.Field // of each enclosure: its form with nothing found
}

// spot is one state of the plant as the hands left it.
type spot struct {
	world *safety.World
	off   map[string]bool // devices off and locked
	key   string          // of off and what is unplugged
	plugs []string
	legs  map[legKey]*leg
}

type legKey struct{ check, modes, ahead string }

// leg is the way from a spot to where a check may be taken, or why there is none.
type leg struct {
	*way
	refusal *safety.Refusal
	bodies  []any // of the events of its acts, proofs with nothing found
	to      *spot
	proofs  []proof
}

// way is what is done on a leg: all of it that a case keeps.
type way struct {
	acts    []journal.Act
	minutes float64
}

// proof is one enclosure proved dead on the way: after which of the acts, with
// what off and which calls standing.
type proof struct {
	box   string
	after int
	off   map[string]bool
	calls map[string]bool
	key   string
}

func newGround(ctx safety.Context) *ground {
	g := &ground{ctx: ctx, spots: map[string]*spot{}, aims: map[*trees.Bound]string{}, clean: map[string][]journal.Field{}}
	g.first = g.spot(safety.New(ctx.Plant))
	return g
}

// spot finds or makes the spot of a world. The world is not to change any more.
func (g *ground) spot(w *safety.World) *spot {
	key := worldKey(w)
	if s := g.spots[key]; s != nil {
		return s
	}
	s := &spot{world: w, off: w.Locked(), legs: map[legKey]*leg{}}
	for _, p := range g.ctx.Plant.Plugs {
		if w.Plugs[p.ID] == safety.Set {
			s.plugs = append(s.plugs, p.ID)
		}
	}
	s.key = plant.Those(s.off) + "|" + strings.Join(s.plugs, " ")
	g.spots[key] = s
	return s
}

// leg finds the way from a spot to a check in these modes.
func (g *ground) leg(from *spot, graph *trees.Graph, step *trees.Bound, c *trees.BoundCheck, modes []string) *leg {
	key := legKey{c.ID, strings.Join(modes, ","), g.ahead(graph, step, c)}
	l := from.legs[key]
	if l == nil {
		l = g.find(from, c, modes, strings.Fields(key.ahead))
		from.legs[key] = l
	}
	return l
}

// ahead names the covers that come off with those of a step; none for a
// reading that the step only needs for its expectation.
func (g *ground) ahead(graph *trees.Graph, step *trees.Bound, c *trees.BoundCheck) string {
	if step == nil || len(step.Check.Need.Enclosures)+len(c.Need.Enclosures) == 0 && len(c.Need.Unplugged) == 0 {
		return ""
	}
	known, ok := g.aims[step]
	if !ok {
		known = strings.Join(walk.Ahead(graph, step, g.ever), " ")
		g.aims[step] = known
	}
	return known
}

// ever says whether a check is for these hands at all.
func (g *ground) ever(c *trees.BoundCheck) bool {
	return safety.Ever(g.ctx, g.first.world, safety.OfCheck(c)) == nil
}

// find plans the way and tries it past the guard. Whether there is a way at all is
// seen without the covers of later steps.
func (g *ground) find(from *spot, c *trees.BoundCheck, modes, ahead []string) *leg {
	thing := safety.OfCheck(c, modes...)
	possible := safety.Ever
	if len(ahead) > 0 {
		possible = safety.Available
	}
	if r := possible(g.ctx, from.world, thing); r != nil {
		return &leg{refusal: r}
	}
	l := g.do(from, safety.Plan(g.ctx, from.world, thing, ahead))
	if l.refusal == nil {
		l.refusal = safety.Guard(g.ctx, l.to.world, thing)
	}
	return l
}

// do does acts one after the other, proofs with nothing found.
func (g *ground) do(from *spot, acts []journal.Act) *leg {
	l := &leg{way: &way{acts: acts}, to: from}
	w := from.world.Clone()
	for i, a := range acts {
		if r := safety.Guard(g.ctx, w, safety.OfAct(a)); r != nil {
			l.refusal = r
			return l
		}
		if a.Do == journal.ActProve {
			l.proofs = append(l.proofs, proving(g.ctx.Plant, w, a.On, i))
		}
		event := g.done(w, a)
		l.bodies = append(l.bodies, event.Body)
		w.Apply(event)
		l.minutes += walk.ActMinutes(a)
	}
	if len(acts) > 0 {
		l.to = g.spot(w)
	}
	return l
}

// proving notes a proof on its way, with the calls made that its form asks for.
func proving(p *trees.Plant, w *safety.World, box string, after int) proof {
	pr := proof{box: box, after: after, off: w.Locked(), calls: map[string]bool{}}
	for _, c := range p.Calls {
		pr.calls[c.ID] = w.Calls[c.ID].Asked == safety.On
	}
	for _, f := range w.Form(box) {
		if f.Call != nil {
			pr.calls[f.Call.ID] = true
		}
		for _, c := range f.Calls {
			pr.calls[c.ID] = true
		}
	}
	pr.key = box + "|" + plant.Those(pr.off) + "|" + plant.Those(pr.calls)
	return pr
}

// done is the event of an act that goes well; the values of proofs of one
// enclosure are shared.
func (g *ground) done(w *safety.World, a journal.Act) journal.Event {
	b := &journal.Acted{Act: a, Outcome: journal.Done}
	if a.Do == journal.ActProve {
		if g.clean[a.On] == nil {
			g.clean[a.On] = done(w, a, nil).Body.(*journal.Acted).Form
		}
		b.Form = g.clean[a.On]
	}
	return journal.Event{Kind: journal.KindActed, Body: b}
}

// done is the event of an act; found are the lines of a proof that read volts.
func done(w *safety.World, a journal.Act, found map[string]float64) journal.Event {
	b := &journal.Acted{Act: a, Outcome: journal.Done}
	if a.Do == journal.ActProve {
		b.Form = safety.Clean(w.Form(a.On))
		for i, f := range b.Form {
			if v, read := found[f.Name]; read {
				b.Form[i].Value, b.Form[i].Typed, b.Outcome = v, fmt.Sprintf("%.0f", v), journal.Found
				if v == 0 {
					b.Form[i].Typed = "no" // its screen is lit, and nothing was read
				}
			} else if f.Typed == "yes" {
				b.Form[i].Value = 1
			}
		}
	}
	return journal.Event{Kind: journal.KindActed, Body: b}
}
