// Package oracle judges package network by other means, for tests only: Solve
// is an elimination of 240 bits, Read takes in what ngspice printed for a
// netlist, Judge holds a solver against it. Start with Judge.
package oracle

// Earth is the node that is true earth.
const Earth = -1

// Line is a branch of one network, ac or dc: Y siemens in series with an EMF of
// E volts, its plus at From. Nodes count from 0.
type Line struct {
	From, To int
	Y, E     complex128
}

// Solve gives the volts of each node against earth, by Gaussian elimination of
// the node equations with full precision: another method and other digits than
// the solver's. A part that floats must be held by the caller.
func Solve(nodes int, lines []Line) []complex128 {
	return near(equations(nodes, lines).solve())
}

// Between gives the volts from a to b, EMFs off, for one ampere into a and out
// of b: the impedance.
func Between(nodes int, lines []Line, a, b int) complex128 {
	if a == b {
		return 0
	}
	s := equations(nodes, lines)
	for i := range s.amps {
		s.amps[i] = newExact(0)
	}
	if a != Earth {
		s.amps[a] = newExact(1)
	}
	if b != Earth {
		s.amps[b] = newExact(-1)
	}
	v := append(s.solve(), newExact(0))
	return sub(v[(a+nodes+1)%(nodes+1)], v[(b+nodes+1)%(nodes+1)]).near()
}

func near(volts []exact) []complex128 {
	out := make([]complex128, len(volts))
	for i, v := range volts {
		out[i] = v.near()
	}
	return out
}
