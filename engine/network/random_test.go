package network

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// randomNetwork draws a network as plants have them: branches from 10 mΩ to
// 10 GΩ, coils and capacitors, a few EMFs; everything leaks 10 GΩ to earth.
func randomNetwork(r *rand.Rand, nodes, branches int) *Network {
	n := leaking(nodes)
	for i := range branches {
		b := branchOf(r.IntN(kinds), r.Float64(), r.Float64())
		b.Name, b.From, b.To = fmt.Sprintf("branch.%d", i), randomNode(r, nodes), randomNode(r, nodes)
		n.Add(b)
	}
	return n
}

// leaking is a number of nodes that are joined by nothing but 10 GΩ to earth.
func leaking(nodes int) *Network {
	n := &Network{}
	for i := range nodes {
		v := n.Node(fmt.Sprintf("node.%d", i))
		n.Add(Branch{Name: "leak", From: v, To: Earth, Y: 1e-10, G: 1e-10})
	}
	return n
}

func randomNode(r *rand.Rand, nodes int) Node { return Node(r.IntN(nodes+1) - 1) }

// kinds is how many kinds of branches branchOf makes; the last are resistors.
const kinds = 10

// branchOf is of one of the kinds that parts of a plant have; u and v, from 0
// to 1, choose its values.
func branchOf(kind int, u, v float64) Branch {
	ohms := math.Pow(10, -2+u*12)
	b := Branch{Y: complex(1/ohms, 0), G: 1 / ohms}
	switch kind {
	case 0: // winding
		b.Y = 1 / complex(ohms, ohms*3*v)
	case 1: // capacitor
		b.Y, b.G = complex(0, 314*math.Pow(10, -10+4*v)), 0
	case 2: // snubber
		b.Y, b.G = 1/complex(100, -31830), 0
	case 3: // open contact
		b.Y, b.G = 0, 0
	case 4: // ac supply
		b.Y, b.G, b.E = 4, 4, complex(240, 0)
	case 5: // dc supply
		b.Y, b.G, b.EDC = 1/22.0, 1/22.0, 13
	}
	return b
}
