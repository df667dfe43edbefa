package plant

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"
	"strings"

	"faultwalk/engine/network"
	"faultwalk/trees"
)

// wireOhms is the impedance up to which a branch passes for a wire, in ohm: far
// above a long core, far below any load or joint that loses volts.
const wireOhms = 5

// Why says where a reading comes from.
type Why struct {
	Open   float64    // V between the two places before the meter touches
	Behind complex128 // Ω at mains frequency that the meter sees between them
	Lost   []Lost     // what lies between the point and its source and loses volts, most first
}

// Lost is a branch that volts are lost over, or that stands open.
type Lost struct {
	Branch string  // as the model names it
	Words  string  // as people do
	Volts  float64 // V rms across it, the meter in place
	Ohms   float64 // Ω; +Inf for an open one
}

// Why explains a reading of ac volts between two points, with a meter of so
// many ohms, in a standing of the plant.
func (s *Subject) Why(from, to *trees.Point, meterOhms float64, st Standing) Why {
	s.stand(st)
	a, _ := s.m.nodeOf(from.ID)
	b := network.Earth
	if to != nil {
		b, _ = s.m.nodeOf(to.ID)
	}
	z, _ := s.solver.Seen(a, b)
	w := Why{Open: s.solver.Volts(a, b), Behind: z}
	view := s.solver.Load(a, b, complex(1/meterOhms, 0), 1/meterOhms)
	for _, n := range []network.Node{a, b} {
		w.Lost = append(w.Lost, s.around(n, view)...)
	}
	slices.SortStableFunc(w.Lost, func(x, y Lost) int { return cmp.Compare(y.Volts, x.Volts) })
	w.Lost = slices.CompactFunc(w.Lost, func(x, y Lost) bool { return x.Branch == y.Branch })
	return w
}

// around lists what parts the wires at a node from the rest: contacts that
// stand open, joints, breaks. Loads, capacitances and air are no way to a source.
func (s *Subject) around(n network.Node, view network.View) (out []Lost) {
	if n == network.Earth {
		return nil
	}
	island := s.wired(n)
	fed := s.fed(island)
	for i, br := range s.net.Branches {
		if i >= len(s.m.branches) || island[br.From] == island[br.To] || !s.m.wireLike(i) {
			continue
		}
		y, _, _, _ := s.solver.Value(i)
		l := Lost{Branch: br.Name, Words: s.m.branchWords(br.Name), Volts: cmplx.Abs(view.AC(br.From) - view.AC(br.To)), Ohms: math.Inf(1)}
		if y != 0 {
			l.Ohms = cmplx.Abs(1 / y)
		}
		if l.Volts >= 1 && (!fed || y != 0) { // what stands open beside a fed point leads elsewhere
			out = append(out, l)
		}
	}
	return out
}

// fed says whether the mains itself is among nodes: its live, its neutral or
// its earth.
func (s *Subject) fed(nodes map[network.Node]bool) bool {
	for _, n := range s.m.supplies {
		if b := s.net.Branches; nodes[b[n.live].From] || nodes[b[n.neutral].From] {
			return true
		}
	}
	return false
}

// wired is every node joined to one by what passes for a wire.
func (s *Subject) wired(n network.Node) map[network.Node]bool {
	at := map[network.Node][]network.Node{}
	for i, br := range s.net.Branches {
		if y, _, _, _ := s.solver.Value(i); cmplx.Abs(y) > 1.0/wireOhms {
			at[br.From], at[br.To] = append(at[br.From], br.To), append(at[br.To], br.From)
		}
	}
	seen := map[network.Node]bool{n: true}
	for queue := []network.Node{n}; len(queue) > 0; queue = queue[1:] {
		for _, next := range at[queue[0]] {
			if !seen[next] && next != network.Earth {
				seen[next] = true
				queue = append(queue, next)
			}
		}
	}
	return seen
}

// wireLike says whether a branch is a wire or a contact when it is whole: its
// own ohms as the model has them, closed.
func (m *Model) wireLike(i int) bool {
	b := &m.branches[i]
	if b.ohms == nil || b.farads != nil || b.reactance != nil || b.volts != nil || b.dcVolts != nil {
		return false
	}
	probe := &Subject{m: m, v: m.commissioned, values: m.nominal}
	probe.words()
	return b.ohms(probe) <= wireOhms
}

// branchWords names a branch for people: the core and which end, the part and
// what in it.
func (m *Model) branchWords(name string) string {
	head, end, joint := strings.Cut(name, "@")
	for _, l := range m.Plant.Links {
		if l.ID != head {
			continue
		}
		switch {
		case l.Kind == trees.LinkPole:
			return "a pole of " + l.Words
		case !joint:
			return l.Words
		}
		at := map[string]string{"from": l.From, "to": l.To}[end]
		return "the end of " + l.Words + " at " + m.Plant.Point(at).Words
	}
	id, inside, _ := strings.Cut(head, "/")
	if p := m.Plant.Part(id); p != nil {
		switch {
		case joint:
			return "the " + end + " terminal of " + p.Words
		case inside != "":
			return "the " + inside + " of " + p.Words
		}
		return p.Words
	}
	return name
}

// Network is the plant's network in a standing, with every branch as it is then
// and a meter of so many siemens between two points if they are given.
func (s *Subject) Network(st Standing, meter ...network.Branch) *network.Network {
	s.stand(st)
	n := &network.Network{Names: slices.Clone(s.net.Names), Branches: slices.Clone(s.net.Branches)}
	for i := range n.Branches {
		b := &n.Branches[i]
		b.Y, b.E, b.G, b.EDC = s.solver.Value(i)
	}
	n.Branches = append(n.Branches, meter...)
	return n
}

// Node finds the node of a point of the plant, and false if nothing is joined there.
func (m *Model) Node(point string) (network.Node, bool) { return m.nodeOf(point) }
