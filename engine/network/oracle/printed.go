package oracle

import (
	"fmt"
	"strings"
)

// Printed is what ngspice printed for one network: volts by node.
type Printed struct{ DC, AC []complex128 }

// Read takes in the standard output of ngspice for a deck of Netlist, or of
// NetlistLoop with all nodes printed: a dc and an ac block of every node for
// each network.
func Read(out string, nodes int) ([]Printed, error) {
	var volts []complex128
	for l := range strings.Lines(out) {
		name, value, ok := strings.Cut(l, " = ")
		if !ok || !strings.HasPrefix(name, "v(n") {
			continue
		}
		var re, im float64
		if n, _ := fmt.Sscanf(strings.TrimSpace(value), "%g,%g", &re, &im); n == 0 {
			return nil, fmt.Errorf("ngspice printed %q, expected a number", strings.TrimSpace(l))
		}
		volts = append(volts, complex(re, im))
	}
	if len(volts) == 0 || nodes == 0 || len(volts)%(2*nodes) != 0 {
		return nil, fmt.Errorf("ngspice printed %d voltages, expected a multiple of %d:\n%s", len(volts), 2*nodes, out)
	}
	var all []Printed
	for ; len(volts) > 0; volts = volts[2*nodes:] {
		all = append(all, Printed{volts[:nodes], volts[nodes : 2*nodes]})
	}
	return all, nil
}
