package rehearse

import (
	"slices"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/monitor"
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// track collects what was done in all walks of one person on one plant, for
// the monitor: ways that begin alike share their beginning, so that it is judged
// once.
type track struct {
	hands journal.Hands
	plant *trees.Plant
	start *node
}

// node is one stretch of events behind another.
type node struct {
	before *node
	next   map[step]*node
	order  []*node // of next, as they came
	bodies []any
	found  []monitor.Finding
}

// step tells apart what may come after a node.
type step struct {
	leg    *leg
	broken string
	check  *trees.BoundCheck
	modes  string
}

// broken is a leg that ended at a proof which found volts.
type broken struct {
	after int
	acted *journal.Acted
}

func newTrack(plant *trees.Plant, hands journal.Hands) *track {
	return &track{hands: hands, plant: plant, start: &node{bodies: []any{&journal.Handed{Hands: hands}}}}
}

func (n *node) to(s step, bodies func() []any) *node {
	if next := n.next[s]; next != nil {
		return next
	}
	if n.next == nil {
		n.next = map[step]*node{}
	}
	next := &node{before: n, bodies: bodies()}
	n.next[s] = next
	n.order = append(n.order, next)
	return next
}

// acts goes on by the acts of a leg, or those up to where it broke.
func (t *track) acts(n *node, l *leg, b *broken) *node {
	s := step{leg: l}
	if b != nil {
		for _, f := range b.acted.Form {
			s.broken += f.Typed + ","
		}
	}
	return n.to(s, func() []any {
		if b == nil {
			return l.bodies
		}
		return append(slices.Clone(l.bodies[:b.after]), b.acted)
	})
}

// read goes on by a reading.
func (t *track) read(n *node, r *reading) *node {
	return n.to(step{check: r.check, modes: r.modes()}, func() []any {
		b := &journal.Read{Check: r.check.ID, Purpose: journal.ForTree, Answer: r.answer, Called: safety.Calling(r.check)}
		for i, p := range r.check.Probes {
			if v := r.values[i]; v.read {
				b.Values = append(b.Values, journal.Value{As: p.As, Mode: v.mode, Meter: v.meter, Low: v.shown.Value.Lo, High: v.shown.Value.Hi, Open: v.shown.Open})
			}
		}
		return []any{b}
	})
}

// judge has the monitor go along every way to its end; a stretch is judged
// once, with what came before it.
func (t *track) judge(check func(string) *trees.BoundCheck, cause func(string) *trees.BoundCause) {
	t.start.judge(monitor.New(t.plant, check, cause), 0)
}

// judge lets a monitor that has seen so many events go on along a stretch; where
// ways part each gets one of its own.
func (n *node) judge(m *monitor.Monitor, seen int) {
	n.found = nil
	for _, b := range n.bodies {
		seen++
		n.found = append(n.found, m.See(journal.Event{N: seen, Kind: journal.KindOf(b), Body: b})...)
	}
	for i, next := range n.order {
		if i < len(n.order)-1 {
			next.judge(m.Clone(), seen)
		} else {
			next.judge(m, seen)
		}
	}
	n.next, n.order = nil, nil // and with them what was learnt of the plant
}

// unsafe says what the monitor found on the way to a node.
func (n *node) unsafe() string {
	var all []string
	for ; n != nil; n = n.before {
		for _, f := range n.found {
			all = append(all, f.What)
		}
	}
	return strings.Join(all, "; ")
}
