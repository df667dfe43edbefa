package network

import (
	"fmt"
	"math/rand/v2"
)

// plantlike is a network of the shape a real plant has, of about 250 nodes and
// 600 branches: a service with its bond and electrode, boxes joined by cables
// of five cores with a joint at each end, coupling and leaks, and in each box
// loads and contacts.
func plantlike(r *rand.Rand) *Network {
	n := &Network{}
	live, neutral := n.Node("service.live"), n.Node("service.neutral")
	source := n.Node("service.source")
	n.Add(Branch{Name: "service", From: live, To: source, Y: 1 / (0.2 + 0.05i), G: 5, E: 240})
	ohms(n, "pen", source, neutral, 0.1)
	ohms(n, "bond", neutral, n.Node("service.earth"), 0.01)
	ohms(n, "electrode", n.Node("service.earth"), Earth, 20)
	for box := range 6 {
		from := "service"
		if box > 0 {
			from = fmt.Sprintf("box%d", r.IntN(box))
		}
		cable(n, from, fmt.Sprintf("box%d", box))
		fill(n, r, fmt.Sprintf("box%d", box))
	}
	for v := range n.Names {
		ohms(n, "leak", Node(v), Earth, 1e10)
	}
	return n
}

var conductors = []string{"live", "neutral", "earth", "heat", "water"}

// cable joins two boxes by five cores.
func cable(n *Network, from, to string) {
	for i, c := range conductors {
		core := from + "." + to + "." + c
		a, b := n.Node(core+".a"), n.Node(core+".b")
		ohms(n, core+" joint", n.Node(from+"."+c), a, 0.01)
		ohms(n, core, a, b, 0.12)
		ohms(n, core+" joint", b, n.Node(to+"."+c), 0.01)
		for _, d := range conductors[:i] {
			n.Add(Branch{Name: core + " beside " + d, From: b, To: n.Node(from + "." + to + "." + d + ".b"), Y: 314e-9i * 0.9})
		}
	}
}

// fill puts loads and contacts into a box.
func fill(n *Network, r *rand.Rand, box string) {
	at := func(s string) Node { return n.Node(box + "." + s) }
	ohms(n, box+" contact", at("live"), at("heat"), 0.05)
	for i := range 6 {
		out := at(fmt.Sprintf("out%d", i))
		ohms(n, fmt.Sprintf("%s contact %d", box, i), at("live"), out, 0.05)
		load := at(fmt.Sprintf("load%d", i))
		ohms(n, "joint", out, load, 0.001)
		n.Add(Branch{Name: fmt.Sprintf("%s motor %d", box, i), From: load, To: at("neutral"), Y: 1 / complex(2600, 4200*r.Float64()), G: 1 / 2600.0})
		n.Add(Branch{Name: "filter", From: load, To: at("earth"), Y: 314e-8i})
	}
	plus, minus := at("plus"), at("minus")
	n.Add(Branch{Name: box + " dc", From: plus, To: minus, Y: 1 / 22.0, G: 1 / 22.0, EDC: 13})
	for i := range 4 {
		c := at(fmt.Sprintf("sensor%d", i))
		ohms(n, "pull-up", plus, c, 10000)
		ohms(n, "sensor", c, minus, 10000+1000*float64(i))
	}
}

func ohms(n *Network, name string, a, b Node, r float64) int {
	return n.Add(Branch{Name: name, From: a, To: b, Y: complex(1/r, 0), G: 1 / r})
}
