package oracle

import (
	"fmt"
	"strings"
)

// Printed is what ngspice printed for one network: volts by node.
type Printed struct{ DC, AC []complex128 }

// Read takes in the standard output of ngspice for a deck of network.Netlist, or of
// spiceloop.Write with all nodes printed: a dc and an ac block of every node for
// each network. A node is printed as its number and name, in any order: n3_live
// or v(n3_live); what has another letter is inside a branch.
func Read(out string, nodes int) ([]Printed, error) {
	var blocks [][]complex128
	count := 0
	for l := range strings.Lines(out) {
		name, value, ok := strings.Cut(l, " = ")
		var node int
		if n, _ := fmt.Sscanf(strings.TrimPrefix(name, "v("), "n%d_", &node); !ok || n == 0 {
			continue
		}
		var re, im float64
		if n, _ := fmt.Sscanf(strings.TrimSpace(value), "%g,%g", &re, &im); n == 0 {
			return nil, fmt.Errorf("ngspice printed %q, expected a number", strings.TrimSpace(l))
		}
		if node >= nodes {
			return nil, fmt.Errorf("ngspice printed %q, expected nodes up to %d", strings.TrimSpace(l), nodes-1)
		}
		if count%nodes == 0 {
			blocks = append(blocks, make([]complex128, nodes))
		}
		blocks[len(blocks)-1][node] = complex(re, im)
		count++
	}
	if count == 0 || count%(2*nodes) != 0 {
		return nil, fmt.Errorf("ngspice printed %d voltages, expected a multiple of %d:\n%s", count, 2*nodes, out)
	}
	var all []Printed
	for i := 0; i < len(blocks); i += 2 {
		all = append(all, Printed{blocks[i], blocks[i+1]})
	}
	return all, nil
}
