package network

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// randomNetwork draws a network as plants have them: branches from 10 mΩ to
// 10 GΩ, coils and capacitors, a few EMFs; everything leaks 10 GΩ to earth.
func randomNetwork(r *rand.Rand, nodes, branches int) *Network {
	n := &Network{}
	for i := range nodes {
		v := n.Node(fmt.Sprintf("node.%d", i))
		n.Add(Branch{Name: "leak", From: v, To: Earth, Y: 1e-10, G: 1e-10})
	}
	for i := range branches {
		b := randomBranch(r)
		b.Name, b.From, b.To = fmt.Sprintf("branch.%d", i), randomNode(r, nodes), randomNode(r, nodes)
		n.Add(b)
	}
	return n
}

func randomNode(r *rand.Rand, nodes int) Node { return Node(r.IntN(nodes+1) - 1) }

// randomBranch is of one of the forms that parts of a plant have.
func randomBranch(r *rand.Rand) Branch {
	ohms := math.Pow(10, -2+r.Float64()*12)
	b := Branch{Y: complex(1/ohms, 0), G: 1 / ohms}
	switch r.IntN(10) {
	case 0: // winding
		b.Y = 1 / complex(ohms, ohms*3*r.Float64())
	case 1: // capacitor
		b.Y, b.G = complex(0, 314*math.Pow(10, -10+4*r.Float64())), 0
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
