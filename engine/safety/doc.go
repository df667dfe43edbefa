// Package safety holds what has been done to the plant and judges what may be
// done next. It knows no time and touches no file: everything follows from the
// plant, the events, the hands and the jurisdiction.
//
// Start with [New] for a [World] and [World.Apply] for each event of the job.
// [Guard] says whether an act or a check may be done now; nothing else in the
// tool decides that. [Plan] proposes the acts from here to a check, each of
// which the guard allows in turn, and [PlanRestore] those that put the plant
// back. [Available] says beforehand whether these hands could ever get there.
// [Form] gives the lines of a proof of dead and [Judge] reads them.
package safety
