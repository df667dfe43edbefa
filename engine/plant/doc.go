// Package plant is a composed plant that can be simulated: its wiring as a
// network at mains frequency and at dc, its parts as rules on the solved volts
// and on each other. Use [Compile] first: it builds the model and refuses what
// cannot be simulated with the place in the file. [Model.Faults] lists the ways
// to fail, [Model.New] gives a plant with one of them (nil: healthy), and
// [Subject.Answer] takes a check on it.
//
// A plant is settled by applying every rule at once, again and again, until
// nothing changes; protection acts first, the worst overload alone. What never
// comes to rest is unsteady: an answer on a faulty plant, an error on a healthy
// one.
package plant
