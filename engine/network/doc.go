// Package network solves the electrical network of a plant: the phasors at
// mains frequency and the dc voltages, each a net of two-terminal branches
// (admittance with an EMF in series) between nodes and true earth.
//
// Fill a Network with Node and Add, hand it to NewSolver, then call Solve and
// ask for Volts, VoltsDC, Amps and AmpsDC. Where many faults of one plant are
// solved, the first solver's Share saves the analysis of the pattern. Set and
// Source change a branch; Solve eliminates again only what a change is carried
// to, to the same last bit as if it did all. Load puts a
// meter's input on two nodes, Seen says what an ohmmeter would meet there.
// Netlist writes the same network for SPICE.
//
// The method is star-mesh elimination in a fixed sparse order: a node with
// branches y₁…yₘ is replaced by the branches yᵢ·yⱼ/Σy between its neighbours.
// Admittances are only added, multiplied and divided and no diagonal is
// formed, so 1 GΩ behind 10 mΩ keeps its digits, and a part of the network
// that has lost every way to earth shows as a sum of exactly zero: it is
// pinned at zero volts and Islands names it. Admittances of branches must not
// have a negative real part; with that, only a lossless inductor and capacitor
// in exact resonance at an otherwise bare node are beyond it.
package network
