// Package plant is a composed plant that can be simulated: its wiring as a
// network at mains frequency and at dc, its parts as rules on the solved volts
// and on each other.
//
// Use [Compile] first: it builds the model and refuses what cannot be simulated
// with the place in the file. [Model.Faults] lists the ways to fail that are
// written, [Model.Sweep] those that nobody wrote, [Model.Draw] gives one plant
// of its kind, and [Model.New] a plant with one fault in it (nil: healthy); it
// has lived through weeks of ordinary use. [Subject.Be] makes it another one
// without the cost. A model serves any number of goroutines, a subject one.
//
// [Subject.Answer] takes a check on it, the meter a load; [Subject.Shows] says
// whether somebody notices a sign, [Subject.Touch] what a hand in an enclosure
// would stand under, [Subject.Act] does something for good, [Subject.Why]
// explains a reading and [Subject.Network] gives the network as it stands.
//
// A plant is settled by applying every rule at once, again and again, until
// nothing changes; protection acts first, the worst overload alone. What never
// comes to rest is unsteady: an answer on a faulty plant, an error on a healthy
// one. Each standing (what is called, off, parted or lifted) is settled once,
// from rest after ordinary use, and kept.
//
// Volts are rms at [Frequency] or dc, in V; currents in A, resistance in Ω,
// temperatures in °C. Reference is true earth, not the earth terminal.
package plant
