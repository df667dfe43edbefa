package network

import "fmt"

// Node is a place of one voltage: an index into Network.Names, or Earth.
type Node int

// Earth is true earth, the zero of all voltages.
const Earth Node = -1

// EarthName is how Node and Name spell Earth: no id of a plant has a space in it.
const EarthName = "true earth"

// Branch joins two nodes by an admittance with an EMF in series. The zero
// admittance is an open branch; it keeps its place and may be closed by Set.
type Branch struct {
	Name     string
	From, To Node
	Y        complex128 // siemens at mains frequency, real part not negative
	G        float64    // siemens at dc, not negative
	E        complex128 // ac volts (rms phasor) in series, its plus at From
	EDC      float64    // dc volts in series, its plus at From
}

// Network is a list of nodes by name and of the branches between them.
type Network struct {
	Names    []string
	Branches []Branch
	index    map[string]Node
}

// Node gives the node of a name and adds it if there is none yet; EarthName is
// Earth.
func (n *Network) Node(name string) Node {
	if name == EarthName {
		return Earth
	}
	n.indexed()
	if i, ok := n.index[name]; ok {
		return i
	}
	i := Node(len(n.Names))
	n.Names = append(n.Names, name)
	n.index[name] = i
	return i
}

// Find gives the node of a name, and false if there is none.
func (n *Network) Find(name string) (Node, bool) {
	if name == EarthName {
		return Earth, true
	}
	n.indexed()
	i, ok := n.index[name]
	return i, ok
}

// indexed brings the index up to Names, which may have been filled by hand.
func (n *Network) indexed() {
	if len(n.index) == len(n.Names) && n.index != nil {
		return
	}
	n.index = make(map[string]Node, len(n.Names))
	for i, s := range n.Names {
		n.index[s] = Node(i)
	}
}

// Add appends a branch and gives its number.
func (n *Network) Add(b Branch) int {
	n.Branches = append(n.Branches, b)
	return len(n.Branches) - 1
}

// Name is the name of a node.
func (n *Network) Name(node Node) string {
	if node == Earth {
		return EarthName
	}
	if node < Earth || int(node) >= len(n.Names) {
		return fmt.Sprintf("node %d, which is none", node)
	}
	return n.Names[node]
}

// Clone is a copy whose nodes and branches may be changed apart from n's.
func (n *Network) Clone() *Network {
	return &Network{
		Names:    append([]string(nil), n.Names...),
		Branches: append([]Branch(nil), n.Branches...),
	}
}
